// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/port_audio.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "audio/quiet_libraries.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

constexpr std::array<double, 4> kRates_hz = {44100.0, 48000.0, 96000.0, 192000.0};

/// What PortAudio says went wrong, with the sound system's own words where there are any.
std::string words_of(PaError error) {
  if (error == paUnanticipatedHostError) {
    const PaHostErrorInfo* info = Pa_GetLastHostErrorInfo();
    if (info != nullptr && info->errorText != nullptr && *info->errorText != '\0') return info->errorText;
  }
  return Pa_GetErrorText(error);
}

std::vector<double> rates_of(PaDeviceIndex index, const PaDeviceInfo& info) {
  const bool input = info.maxInputChannels > 0;
  const PaStreamParameters wish{index, 1, paFloat32, 0.05, nullptr};
  std::vector<double> rates;
  for (const double rate_hz : kRates_hz) {
    if (Pa_IsFormatSupported(input ? &wish : nullptr, input ? nullptr : &wish, rate_hz) == paFormatIsSupported) {
      rates.push_back(rate_hz);
    }
  }
  return rates;
}

}  // namespace

void PortAudio::ask(std::function<void()> job, std::chrono::milliseconds limit) {
  // The job keeps this alive.
  if (thread_.run([self = shared_from_this(), job = std::move(job)] { job(); }, limit)) return;
  throw DeviceFailure("the sound system does not answer; restart it (or the computer) and try again");
}

void PortAudio::ask_in_vain_if_need_be(std::function<void()> job, std::chrono::milliseconds limit) noexcept {
  try {
    ask(std::move(job), limit);
  } catch (const std::exception&) {
    // Nothing can be done about a device that does not even close.
  }
}

std::vector<Device> PortAudio::look() {
  const QuietStandardError quiet;
  if (open_streams_ == 0 || !initialized_) {
    terminate();
    quiet_sound_libraries();
    if (const PaError error = Pa_Initialize(); error != paNoError) {
      throw DeviceFailure(fmt::format("the sound system can't be used: {}", words_of(error)));
    }
    initialized_ = true;
  }
  std::vector<Device> devices;
  for (PaDeviceIndex k = 0; k < Pa_GetDeviceCount(); ++k) {
    const PaDeviceInfo* info = Pa_GetDeviceInfo(k);
    if (info == nullptr) continue;
    Device device;
    device.number = k + 1;
    device.name = info->name;
    device.host_system = Pa_GetHostApiInfo(info->hostApi)->name;
    device.inputs = info->maxInputChannels;
    device.outputs = info->maxOutputChannels;
    device.usual_rate_hz = info->defaultSampleRate;
    // ALSA's hardware devices carry their address; everything else there is a plug-in or a server, which says yes to any rate.
    const bool alsa = device.host_system == "ALSA";
    device.raw = alsa && device.name.find("(hw:") != std::string::npos;
    if (open_streams_ == 0 && (device.raw || !alsa)) device.rates_hz = rates_of(k, *info);
    device.usual_input = k == Pa_GetDefaultInputDevice();
    device.usual_output = k == Pa_GetDefaultOutputDevice();
    if (device.inputs > 0) device.cautions = device_cautions(device.name, device.usual_rate_hz);
    devices.push_back(std::move(device));
  }
  return devices;
}

void PortAudio::open(PaStream*& stream, const PaStreamParameters* input, const PaStreamParameters* output, double rate_hz,
                     PaStreamCallback* callback, PaStreamFinishedCallback* finished, void* shared, const std::string& name) {
  const auto frames = static_cast<unsigned long>(rate_hz / 100.0);  // 10 ms
  PaError error = Pa_OpenStream(&stream, input, output, rate_hz, frames, paClipOff | paDitherOff, callback, shared);
  if (error == paNoError) {
    ++open_streams_;
    Pa_SetStreamFinishedCallback(stream, finished);
    error = Pa_StartStream(stream);
    if (error == paNoError) return;
    close(stream);
  }
  stream = nullptr;
  throw DeviceFailure(fmt::format("{}: can't be opened at {:.0f} Hz ({}); is it plugged in, and not in use by another program?",
                                  name, rate_hz, words_of(error)));
}

void PortAudio::close(PaStream* stream) {
  Pa_AbortStream(stream);
  Pa_CloseStream(stream);
  --open_streams_;
}

void PortAudio::terminate() {
  if (initialized_) Pa_Terminate();
  initialized_ = false;
}

}  // namespace ringfall::audio
