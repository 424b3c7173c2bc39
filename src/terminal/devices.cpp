// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cstdio>

#include "audio/sound_system.h"
#include "terminal/exit_status.h"
#include "terminal/listen_verbs.h"
#include "terminal/output.h"
#include "terminal/sound_json.h"

namespace ringfall::terminal {
namespace {

void print_device(const audio::Device& device, const std::string& last) {
  print_out("{:3}  {}\n     {}, {} in, {} out, usual rate {:g} kHz", device.number, device.name, device.host_system, device.inputs,
             device.outputs, device.usual_rate_hz / 1000.0);
  if (!device.rates_hz.empty()) {
    std::vector<double> rates_khz;
    for (const double rate_hz : device.rates_hz) rates_khz.push_back(rate_hz / 1000.0);
    print_out(", takes {} kHz", fmt::join(rates_khz, ", "));
  }
  print_out("{}{}{}{}\n", device.raw ? ", the hardware itself" : "", device.usual_input ? ", usual input" : "",
             device.usual_output ? ", usual output" : "", device.name == last ? ", used last" : "");
  for (const auto& caution : device.cautions) print_out("     caution: {}\n", caution);
}

}  // namespace

int devices(const DevicesRequest& request) {
  audio::SoundSystem system;
  const auto found = system.devices();
  const std::string last = audio::last_device();
  if (request.json) {
    const std::string text = devices_json(found, last);
    put(text);
    return found.empty() ? kNotMeasured : kDone;
  }
  for (const auto& device : found) print_device(device, last);
  if (found.empty()) {
    print_out("No sound devices were found.\n");
    return kNotMeasured;
  }
  print_out("\nTake the hardware itself where it is offered: other devices may resample or \"enhance\" what they hear, and say that "
             "they take any rate.\n");
  return kDone;
}

}  // namespace ringfall::terminal
