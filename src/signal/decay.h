// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "signal/backward_integration.h"

namespace ringfall::signal {

struct DecaySettings {
  double range_needed_db = 15.0;       ///< a late fit with less clean range is nullopt
  std::optional<double> bandwidth_hz;  ///< of the band the sequence comes from; nullopt: broadband
  bool straight_only = false;          ///< no late_s when `bent`: one slope or nothing, as a band in a live room needs
};

/// How a shot dies away.
struct Decay {
  std::optional<double> early_s;     ///< 60 dB time from 0 .. -10 dB of the decay curve (early decay time)
  std::optional<double> late_s;      ///< 60 dB time from -5 .. -25 dB, or down to -range_db when that is less
  std::optional<double> range_db;    ///< how far down the late fit reaches: range_needed_db .. 25; only with late_s
  double clean_range_db = 0.0;       ///< how far down the decay curve is clean of noise and of the end
  std::optional<double> to_20_db_s;  ///< from the start until the 10 ms level stays 20 dB below its maximum
  bool bent = false;                 ///< not one slope: beginning, upper and lower half of the late range differ > 1.5 x
  std::optional<double> noise_mean_square;  ///< what the decay runs into; unit as given; nullopt: not reached
  double crossing_s = 0.0;           ///< where decay meets noise, or the end of what was given
  std::vector<double> curve_db;      ///< decay curve re its start, every step_s, to crossing_s
  double step_s = 0.0;
  std::optional<DecayLine> early_line;  ///< for the plot; re the curve's start
  std::optional<DecayLine> late_line;
};

/// Decay of a mean-square sequence (p^2 of a weighted pressure, or BandPower) that starts at the shot's maximum or
/// loud edge and ends before anything foreign (the arrow's impact). Noise is taken off, the backward integration
/// ends where the decay meets the noise and the energy behind that is added from an exponential-plus-noise fit
/// (maximum likelihood), so that the noise does not lengthen the late part.
///
/// mean_square: >= 0, any unit, rate_hz >= 500. noise_mean_square: of the same band before the shot, when known;
/// else it is found in the sequence. nullopt: under 30 ms of sound, or all zero.
/// What two slopes in a row do: early_s shows the first, late_s what lies in -5 .. -25 dB, `bent` says so.
/// With bandwidth_hz, late times under 8 / bandwidth and early ones under 16 / bandwidth are nullopt: below, the band
/// filter's own ringing shows.
/// Accuracy (Monte-Carlo, noise decays): docs/measures/ring_down.md#accuracy. Cost: about 0.1 ms for 0.5 s at 48 kHz.
/// Source: ISO 3382-1:2009 5.3.3, 3.2, 5.4; ISO 3382-2:2008 Annex B; Lundeby et al. 1995; fit own. Tested: signal.Decay.*
std::optional<Decay> measure_decay(std::span<const double> mean_square, double rate_hz,
                                   std::optional<double> noise_mean_square, const DecaySettings& settings = {});

}  // namespace ringfall::signal
