// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

#include "signal/critical_band.h"

namespace ringfall::signal {

/// How far a tone stands out of the noise around it, by ECMA-418-1 (formerly ECMA-74 annex D). Made for steady tones; on
/// a ring-down a label, no verdict. A spectrum here is one-sided, bins in mean square, bin k covering
/// (k - 1/2) .. (k + 1/2) times bin_hz, any unit; level differences do not depend on it as long as every
/// bin has the same one.  Tests: tonality_test.cpp against closed forms and printed values.

/// Power between two frequencies; a bin cut by an edge counts by its share.
double power_between(std::span<const double> spectrum, double bin_hz, FrequencyBand band);

/// Tone-to-noise ratio in dB: the power in `tone` over that of the rest of its critical band, scaled to the whole band.
/// tone_hz: the tone's frequency; tone: the bins it spreads over. nullopt outside 89.1 .. 11 200 Hz, when the critical
/// band leaves the spectrum, when the tone's bins fill more than 15 % of it, or when tone or noise has no power.
std::optional<double> tone_to_noise_ratio_db(std::span<const double> spectrum, double bin_hz, double tone_hz,
                                             FrequencyBand tone);

/// Prominence ratio in dB: the tone's critical band over the mean of its two neighbours (the lower one scaled to 100 Hz up to
/// 171.4 Hz). nullopt outside 89.1 .. 11 200 Hz, when the bands leave the spectrum or hold no power.
std::optional<double> prominence_ratio_db(std::span<const double> spectrum, double bin_hz, double tone_hz);

/// From here on a tone is called prominent: 8 dB (tone-to-noise) and 9 dB (prominence ratio) from 1 kHz, below
/// that 8 + 8.33 lg(1000/f) and 9 + 10 lg(1000/f). nullopt outside 89.1 .. 11 200 Hz.
std::optional<double> prominent_tone_to_noise_db(double tone_hz);
std::optional<double> prominent_prominence_ratio_db(double tone_hz);

}  // namespace ringfall::signal
