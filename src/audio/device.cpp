// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/device.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string_view>

#include "base/failure.h"
#include "base/nearest.h"

namespace ringfall::audio {
namespace {

constexpr double kTelephoneRate_hz = 16000.0;
constexpr std::array<std::string_view, 8> kHeadsetWords = {"bluetooth", "bluez", "headset", "handsfree",
                                                           "hands-free", "hands free", "hfp", "hsp"};
constexpr std::array<std::string_view, 10> kEnhancedWords = {"enhanc", "noise", "denois", "echo", "cancel",
                                                             "voice", "speech", "beam", "agc", "communications"};

std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return text;
}

template <typename Words>
bool holds_any(const std::string& text, const Words& words) {
  return std::ranges::any_of(words, [&](std::string_view word) { return text.find(word) != std::string::npos; });
}

std::vector<std::string> names_of(const std::vector<Device>& devices) {
  std::vector<std::string> names;
  for (const Device& device : devices) names.push_back(device.name);
  return names;
}

std::optional<std::filesystem::path> settings_folder() {
  const char* xdg = std::getenv("XDG_CONFIG_HOME");
  // The XDG base directory specification: a path that is not absolute is to be ignored.
  if (xdg != nullptr && *xdg == '/') return std::filesystem::path(xdg) / "ringfall";
  const char* home = std::getenv("HOME");
  if (home != nullptr && *home == '/') return std::filesystem::path(home) / ".config" / "ringfall";
  return std::nullopt;
}

constexpr const char* kLastDeviceFile = "microphone";

}  // namespace

std::vector<std::string> device_cautions(const std::string& name, double usual_rate_hz) {
  std::vector<std::string> cautions;
  const std::string text = lower(name);
  if (holds_any(text, kHeadsetWords) || (usual_rate_hz > 0.0 && usual_rate_hz <= kTelephoneRate_hz)) {
    cautions.emplace_back("Looks like a Bluetooth headset or a telephone line: its speech codec and gain control spoil every number. "
                          "Take a microphone with a cable.");
  }
  if (holds_any(text, kEnhancedWords)) {
    cautions.emplace_back("Looks like an input with noise suppression, echo cancelling or gain control, which take shots for noise. "
                          "Switch that off, or take the input without it.");
  }
  return cautions;
}

const Device& choose_device(const std::vector<Device>& devices, const std::string& wish) {
  int number = 0;
  const auto [end, error] = std::from_chars(wish.data(), wish.data() + wish.size(), number);
  if (error == std::errc() && end == wish.data() + wish.size()) {
    const auto at = std::ranges::find(devices, number, &Device::number);
    if (at != devices.end()) return *at;
    throw DeviceFailure(fmt::format("there is no sound device {}; `ringfall devices` lists those there are", number));
  }
  const auto exact = std::ranges::find(devices, wish, &Device::name);
  if (exact != devices.end()) return *exact;
  const auto holds = [wanted = lower(wish)](const Device& device) { return lower(device.name).find(wanted) != std::string::npos; };
  const auto first = std::ranges::find_if(devices, holds);
  if (first == devices.end()) {
    throw DeviceFailure(fmt::format("there is no sound device '{}'{}", wish, did_you_mean(wish, names_of(devices))));
  }
  if (std::ranges::count_if(devices, holds) > 1) {
    throw RequestFailure(fmt::format("'{}' is part of several sound devices' names; give the whole name, or the number that "
                                     "`ringfall devices` lists", wish));
  }
  return *first;
}

const Device& usual_input(const std::vector<Device>& devices) {
  auto found = std::ranges::find_if(devices, [](const Device& device) { return device.usual_input && device.inputs > 0; });
  if (found == devices.end()) found = std::ranges::find_if(devices, [](const Device& device) { return device.inputs > 0; });
  if (found == devices.end()) {
    throw DeviceFailure("no microphone was found: plug one in, and see that the sound system is running");
  }
  return *found;
}

std::string last_device() {
  const auto folder = settings_folder();
  std::string name;
  if (folder) {
    std::ifstream file(*folder / kLastDeviceFile);
    std::getline(file, name);
  }
  return name;
}

void keep_last_device(const std::string& name) {
  const auto folder = settings_folder();
  if (!folder) return;
  std::error_code ignored;
  std::filesystem::create_directories(*folder, ignored);
  std::ofstream(*folder / kLastDeviceFile) << name << '\n';
}

}  // namespace ringfall::audio
