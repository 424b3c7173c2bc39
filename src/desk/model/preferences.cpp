// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/model/preferences.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <sstream>
#include <system_error>

#include "base/failure.h"
#include "plot/write.h"
#include "shot/numbers.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

std::optional<double> number_of(const std::string& text) {
  double value = 0.0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

void set_size(int& size, const std::string& value) {
  if (const auto number = number_of(value); number && *number >= 400.0 && *number <= 20000.0) size = static_cast<int>(*number);
}

}  // namespace

std::string config_folder() {
  if (const char* config = std::getenv("XDG_CONFIG_HOME"); config != nullptr && *config == '/') {
    return (fs::path(config) / "ringfall").string();
  }
  if (const char* home = std::getenv("HOME"); home != nullptr && *home == '/') {
    return (fs::path(home) / ".config" / "ringfall").string();
  }
  return {};
}

Preferences preferences_of_text(const std::string& text) {
  Preferences result;
  std::istringstream lines(text);
  std::string line;
  while (std::getline(lines, line)) {
    const auto blank = line.find(' ');
    if (blank == std::string::npos) continue;
    const std::string name = line.substr(0, blank);
    const std::string value = line.substr(blank + 1);
    if (name == "theme" && value == "light") result.theme = plot::Theme::light;
    if (name == "theme" && value == "dark") result.theme = plot::Theme::dark;
    if (name == "units") result.archers_units = value == "archers";
    if (name == "words_first") result.words_first = value == "yes";
    if (name == "main_number" && shot::find_number(value) != nullptr) result.main_number = value;
    if (name == "device") result.device = value;
    if (name == "width") set_size(result.width, value);
    if (name == "height") set_size(result.height, value);
    if (name == "recent" && result.recent.size() < kRecentBooks) result.recent.push_back(value);
    if (name == "text_scale") {
      if (const auto number = number_of(value)) result.text_scale = std::clamp(*number, 0.7, 2.0);
    }
  }
  return result;
}

std::string text_of_preferences(const Preferences& preferences) {
  std::string text = fmt::format("theme {}\ntext_scale {:.2f}\nunits {}\nwords_first {}\nmain_number {}\nwidth {}\nheight {}\n",
                                 preferences.theme == plot::Theme::light ? "light" : "dark", preferences.text_scale,
                                 preferences.archers_units ? "archers" : "metric", preferences.words_first ? "yes" : "no",
                                 preferences.main_number, preferences.width, preferences.height);
  if (!preferences.device.empty()) text += fmt::format("device {}\n", preferences.device);
  for (const auto& path : preferences.recent) {
    if (path.find('\n') == std::string::npos) text += fmt::format("recent {}\n", path);
  }
  return text;
}

Preferences load_preferences(const std::string& folder) {
  std::ifstream file(fs::path(folder) / "desk.conf", std::ios::binary);
  if (folder.empty() || !file) return {};
  return preferences_of_text(std::string(std::istreambuf_iterator<char>(file), {}));
}

void save_preferences(const Preferences& preferences, const std::string& folder) {
  if (folder.empty()) return;
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) throw FileFailure(fmt::format("{}: the folder can't be made ({}); settings are not kept", folder, failed.message()));
  plot::write_whole_file(fs::path(folder) / "desk.conf", text_of_preferences(preferences));
}

void remember_book(Preferences& preferences, const std::string& path) {
  std::erase(preferences.recent, path);
  preferences.recent.insert(preferences.recent.begin(), path);
  if (preferences.recent.size() > kRecentBooks) preferences.recent.resize(kRecentBooks);
}

}  // namespace ringfall::desk
