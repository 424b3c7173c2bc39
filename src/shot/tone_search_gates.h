// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "shot/settings.h"
#include "shot/tail_tones.h"

namespace ringfall::shot {

/// A stretch of the tail seen through the window sin^4(pi t / length): side lobes under -46 dB, falling 30 dB per octave.
struct Gate {
  double begin_s = 0.0;   ///< after the edge
  double length_s = 0.0;
  double end_s() const { return begin_s + length_s; }
};
/// Times 1 / length: half the main lobe, null to null; the noise bandwidth of the window.
inline constexpr double kGateLobe = 3.0;
inline constexpr double kGateNoiseBand = 1.944;  // 35/128 / (3/8)^2

/// Power spectrum of a gate, scaled so that a steady tone of mean square m reads m (Pa^2) at its line.
struct GateSpectrum {
  Gate gate;
  double bin_hz = 0.0;
  std::vector<double> power;
};

/// samples[0] is at begin_s after the edge. padding: length of the transform over the gate's.
template <typename Sample>
GateSpectrum gate_spectrum(std::span<const Sample> samples, double rate_hz, const Gate& gate, double begin_s,
                           double padding);

/// What a gate reads at the line of a tone that decays by e^{-decay_per_s t} in amplitude, over the tone's mean square at
/// from_s: at most the decay until the gate's middle undone, always > 0.
double gate_gain(const Gate& gate, double decay_per_s, double from_s);

/// The decay (per s, of the amplitude) that makes a tone read `ratio` times as much power in the late gate as in the
/// early one; nullopt outside ring times of 25 ms .. 20 s.
std::optional<double> decay_between(const Gate& early, const Gate& late, double ratio);

/// Do two gates hear mostly different sound: are their middles further apart than 3/4 of their windows' mean width at half
/// height?
bool independent(const Gate& one, const Gate& other);

/// The gates that a band is looked at through, first the earliest and shortest, last the longest. Later ones see the
/// lasting tone when thump or room have died. Empty when the tail is too short for any.
std::vector<Gate> low_gates(double tail_end_s, const MeasureSettings& settings);
std::vector<Gate> high_gates(double tail_end_s, const MeasureSettings& settings);

}  // namespace ringfall::shot
