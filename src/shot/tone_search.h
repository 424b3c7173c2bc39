// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "shot/tail_tones.h"
#include "shot/tone_search_gates.h"
#include "shot/tone_search_peaks.h"

namespace ringfall::shot {

/// One band of one or more shots seen through its gates: what detection works on.
struct BandView {
  std::vector<const TailSound::Band*> bands;  ///< one a shot, the same rate
  std::vector<GateSpectrum> spectra;          ///< one a gate; geometric mean over the shots
  PeakRules rules;                            ///< without guard and side, which depend on the gate
  double start_s = 0.0;                       ///< the instant that levels are meant at, after the edge
  double tail_end_s = 0.0;
};

/// Views the low (hum and mid) or the high band (ping) of the shots; no spectra when the tail is too short for a gate.
BandView view_low(std::span<const TailSound* const> shots, const MeasureSettings& settings);
BandView view_high(std::span<const TailSound* const> shots, const MeasureSettings& settings);

/// The rules with the widths that this gate makes.
PeakRules rules_for(const BandView& view, std::size_t gate);

/// A line must stand this far (in power) over a steady tone of the same pitch to be a new one.
inline constexpr double kOverSteady = 4.0;

/// A line that passed the spectrum's part of the test.
struct Candidate {
  double frequency_hz = 0.0;
  std::size_t gate = 0;            ///< where it stands highest
  std::vector<double> excess_db;   ///< over the noise around it, in each gate
  std::vector<double> power;       ///< line in each gate, Pa^2
  std::vector<double> noise;       ///< around it in each gate, Pa^2
  bool seen_again = false;         ///< stands out of a second, practically independent gate too
  /// 60 dB time of the noise around it; 0 when that does not fall between the gates.
  double noise_ring_s = 0.0;
};

/// Lines over the noise in any gate, one each for what the gates cannot tell apart; steady tones left out.
std::vector<Candidate> find_candidates(const BandView& view, std::span<const TailSound::Steady> steady);

/// Power of the candidate's line in a gate without its noise, Pa^2.
double clean_power(const Candidate& candidate, std::size_t gate);

/// Decay of the candidate (per s, of the amplitude) from the two gates that show it best; nullopt when they don't fall.
std::optional<double> decay_of(const BandView& view, const Candidate& candidate);

/// Level at view.start_s, Pa^2, of the faintest tone of this ring time that find_candidates would have taken: middle
/// of low_hz .. high_hz. The view has spectra.
double faintest_mean_square(const BandView& view, double low_hz, double high_hz, double ring_time_s);

/// The highest mean square at view.start_s that tones ringing `ring_time_s` can have between low_hz and high_hz without any gate
/// showing more than it does, at the frequency where that is most; the lobes of tones at `tones_hz` are left out. Twice what the spectra
/// show: noise may be against the tone. nullopt: no gate hears the band.
std::optional<double> hidden_mean_square(const BandView& view, double low_hz, double high_hz, double ring_time_s,
                                         std::span<const double> tones_hz);

}  // namespace ringfall::shot
