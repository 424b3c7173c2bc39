// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::signal {

/// Critical bands of ECMA-418-1 (formerly ECMA-74 annex D), for tones of 89.1 .. 11 200 Hz; the formulas are
/// answered for any frequency > 0. Numbers seen in open implementations, not in the printed standard.
/// Tests: critical_band_test.cpp.

inline constexpr double kLowestToneByEcma_hz = 89.1;
inline constexpr double kHighestToneByEcma_hz = 11200.0;

struct FrequencyBand {
  double low_hz = 0;
  double high_hz = 0;
  double width_hz() const { return high_hz - low_hz; }
};

/// 25 + 75 (1 + 1.4 (f/kHz)^2)^0.69 Hz.
double critical_bandwidth_hz(double centre_hz);

/// The band about a tone: centred in Hz below 500 Hz, with the tone at the geometric mean of its edges from there.
FrequencyBand critical_band(double centre_hz);

/// The critical bands that touch critical_band(centre_hz) below and above; below 171.4 Hz the lower one begins at 20 Hz.
FrequencyBand critical_band_below(double centre_hz);
FrequencyBand critical_band_above(double centre_hz);

/// Two tones closer than this are heard as one: 21 * 10^(1.2 |lg(f/212)|^1.8) Hz.
double tone_proximity_hz(double frequency_hz);

}  // namespace ringfall::signal
