// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <random>
#include <span>
#include <vector>

namespace ringfall::shot {

/// Made-up bow shots with known truth, for the demo and for tests. Not measured from any bow.

struct SyntheticTone {
  double frequency_hz = 0.0;
  double level_db = 0.0;     ///< rms level re 20 uPa at the loud edge
  double ring_time_s = 0.0;  ///< 60 dB time
};

struct SyntheticShot {
  double edge_peak_db = 108.0;      ///< broadband click at the loud edge: peak level re 20 uPa
  double thump_db = 100.0;          ///< 60-500 Hz noise burst: rms level at the edge
  double thump_ring_time_s = 0.083;
  std::vector<SyntheticTone> tones;
  std::vector<double> slap_lag_s;   ///< extra clicks after the edge
  double slap_below_db = 8.0;       ///< peak of a slap under the edge's
  double release_lag_s = -0.015;    ///< release scrape before the edge; 0: none
  double release_below_db = 30.0;
  double clicker_lag_s = 0.0;       ///< clicker before the edge (negative); 0: none
  double clicker_below_db = 25.0;
  double impact_lag_s = 0.344;      ///< 0: none
  double impact_below_db = 12.0;    ///< peak of the target impact under the edge's
  double buzz_rate_hz = 0.0;        ///< chopped 1-8 kHz noise; 0: none
  double buzz_db = 70.0;
};

/// Adds one shot to `pressure_pa` (Pa, mono) with its loud edge at `onset_s` (sub-sample exact for the tones and
/// the edge). `seed` fixes the noise: equal seeds give equal shots.
void add_synthetic_shot(std::span<double> pressure_pa, double sample_rate_hz, double onset_s,
                        const SyntheticShot& shot, std::uint64_t seed);

/// Adds stationary white noise up to Nyquist of the given unweighted rms level re 20 uPa.
void add_white_noise(std::span<double> pressure_pa, double level_db, std::uint64_t seed);

/// Samples re full scale (peak 1 = full_scale_db_spl), not clipped.
std::vector<float> to_full_scale(std::span<const double> pressure_pa, double full_scale_db_spl);

}  // namespace ringfall::shot
