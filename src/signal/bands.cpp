// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/bands.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"

namespace ringfall::signal {
namespace {

constexpr double kReference_hz = 1000.0;
/// 10 lg 2 at x = 1/2: 3.0103 dB * 2^4.
constexpr double kSteepness_db = 48.164799;

constexpr std::array<double, 11> kOctaves_hz = {16,  31.5, 63,   125,  250,  500,
                                                1000, 2000, 4000, 8000, 16000};
constexpr std::array<double, 34> kThirdOctaves_hz = {
    10,  12.5, 16,  20,  25,  31.5, 40,   50,   63,   80,   100,  125,  160,  200,   250,   315,   400,
    500, 630,  800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000};

/// log_G(ratio), G = 10^(3/10): how many octaves apart.
double octaves(double ratio) { return std::log10(ratio) / 0.3; }
double from_octaves(double distance) { return std::pow(10.0, 0.3 * distance); }

Band band_around(double middle_hz, double nominal_hz, int bands_per_octave) {
  const double half = 0.5 / bands_per_octave;
  return {nominal_hz, middle_hz * from_octaves(-half), middle_hz * from_octaves(half), bands_per_octave};
}

}  // namespace

Band octave_band(int x) {
  check(x >= -6 && x <= 4, "octave bands run from 16 Hz to 16 kHz");
  return band_around(kReference_hz * from_octaves(x), kOctaves_hz[static_cast<std::size_t>(x + 6)], 1);
}

Band third_octave_band(int x) {
  check(x >= -20 && x <= 13, "third-octave bands run from 10 Hz to 20 kHz");
  return band_around(kReference_hz * from_octaves(x / 3.0), kThirdOctaves_hz[static_cast<std::size_t>(x + 20)], 3);
}

std::span<const Band> octave_bands() {
  static const std::array<Band, 8> bands = {octave_band(-4), octave_band(-3), octave_band(-2), octave_band(-1),
                                            octave_band(0),  octave_band(1),  octave_band(2),  octave_band(3)};
  return bands;
}

Band high_band() { return {0.0, 2000.0, 16000.0, 3}; }

double band_attenuation_db(const Band& band, double frequency_hz) {
  const double beyond = octaves(std::max(band.low_hz / frequency_hz, frequency_hz / band.high_hz));
  const double x = std::max(0.0, band.bands_per_octave * beyond + 0.5);
  return kSteepness_db * x * x * x * x;
}

FrequencyRange band_reach(const Band& band, double attenuation_db) {
  check(attenuation_db > 0.0, "the reach of a band is asked for a positive attenuation");
  const double beyond = (std::pow(attenuation_db / kSteepness_db, 0.25) - 0.5) / band.bands_per_octave;
  return {band.low_hz * from_octaves(-beyond), band.high_hz * from_octaves(beyond)};
}

}  // namespace ringfall::signal
