// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/limits.h"

#include <fmt/format.h>

#include "base/units.h"
#include "base/version.h"

namespace ringfall::report {

std::vector<std::string> limits(bool calibrated, bool air_assumed) {
  std::vector<std::string> all = {
      "This is about sound at one microphone. What the hands feel below about 60 Hz, groups, arrow speed, durability, wet and "
      "cold, and whether a part is legal in a class were not tested.",
      "Nothing here says that anybody will score better: published studies could not show that with a sensible number of "
      "arrows, and the arrow has left before the bow rings.",
      "A difference belongs to the set-up only if nothing else changed: arrow, archer, place, weather, mass. Added mass alone "
      "makes a bow quieter; hold a damper against the same mass without damping.",
      "The room's echo, the archer's body and the direction towards the microphone are not modelled; they are the same for "
      "all set-ups as long as nobody moves the microphone.",
      "'Audible' means that a difference of this size is noticed by many people who hear both sounds one after the other. It "
      "is no promise about anybody's ears, or an animal's.",
  };
  if (calibrated) {
    all.push_back("Levels are re 20 uPa by the calibration that was given; its error is the same for all set-ups and does not "
                  "touch the differences.");
  } else {
    all.push_back("The microphone was not calibrated: levels are re full scale, loudness, hum and ping assume that a full-scale "
                  "peak is 120 dB re 20 uPa. Differences between set-ups hold while the gain stays; absolute values don't.");
  }
  if (air_assumed) {
    all.push_back(fmt::format("Where nobody said how warm the air was it is taken for {:g} C: 10 C off change an arrow speed of 60 m/s by "
                              "0.3 %.", kAssumedTemperature_c));
  }
  return all;
}

std::vector<std::string> method() {
  return {
      "Time zero is the loud edge: the steepest rise of the sound. Levels: sound exposure over the 300 ms after it, "
      "A-weighted unless said otherwise (IEC 61672-1); loudness by ISO 532-1, sharpness by DIN 45692.",
      "Ring-down: backward integration (ISO 3382-1) to where the decay meets the background; the early part from 0 to -10 dB, "
      "the late part from -5 to -25 dB, both as the time for 60 dB.",
      "Tones are searched in the tail, before the arrow strikes, and must outlast the noise around them. Hum (60 to 400 Hz) "
      "and ping (0.8 to 8 kHz) count how long and how strongly such tones last, 0 to 10.",
      "Differences are of means, with a 95 % interval. With two blocks or more of both set-ups the means of the blocks are "
      "the data, else the shots. p values other than the main number's share their error (Holm).",
      "Pictures of decay are medians over shots; tail spectra and tones are found in the tails of all shots of a set-up "
      "together.",
      fmt::format("Made with Ringfall {}.", kVersion),
  };
}

std::vector<std::string> cautions() {
  return {
      "Never loose the string without an arrow, not even to test the sound.",
      "Nobody and no microphone forward of the shooting line; microphone, stand and cable clear of limbs, string and elbow.",
      "Inspect the bow after every change: bolts, limbs, string seated, brace height, nothing in the path of string or arrow. "
      "A new tick, creak or sudden change of sound: stop, let down, inspect.",
      "Arrow mass never under the bow maker's minimum. A lighter arrow is louder and loads the bow more.",
      "The range's rules, the country's law and licensed practice come first.",
  };
}

}  // namespace ringfall::report
