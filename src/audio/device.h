// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace ringfall::audio {

/// A sound device as the system offers it.
struct Device {
  int number = 0;              ///< from 1, as listed; may change when something is plugged in
  std::string name;
  std::string host_system;     ///< "ALSA", "Core Audio", "WASAPI", ...
  int inputs = 0;              ///< channels
  int outputs = 0;
  double usual_rate_hz = 0.0;  ///< as the system says
  std::vector<double> rates_hz;///< of 44.1, 48, 96 and 192 kHz those it takes; empty: it says yes to any
  bool raw = false;            ///< the hardware itself, past any sound server and its processing
  bool usual_input = false;
  bool usual_output = false;
  std::vector<std::string> cautions;  ///< sentences on why it may be unfit to measure with
};

/// What a device's name and rate say against measuring with it: a headset over Bluetooth, an input that is "enhanced".
/// Own list of words; what they stand for is common practice, no source. Tested: audio.Device.*
std::vector<std::string> device_cautions(const std::string& name, double usual_rate_hz);

/// The device that `wish` means: its number, its name, or a part of the name that only one has (either case).
/// DeviceFailure: none, with those there are. RequestFailure: several.
const Device& choose_device(const std::vector<Device>& devices, const std::string& wish);

/// What to take when nothing is wished: the usual input, else the first that has one. DeviceFailure: there is none.
const Device& usual_input(const std::vector<Device>& devices);

/// The device used last, by name, kept in the user's settings folder (XDG: $XDG_CONFIG_HOME/ringfall, else ~/.config/ringfall).
/// Empty: none. What can't be read or kept is no failure.
std::string last_device();
void keep_last_device(const std::string& name);

}  // namespace ringfall::audio
