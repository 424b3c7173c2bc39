// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "plot/figure.h"
#include "shot/portrait.h"
#include "shot/shot.h"

namespace ringfall::report {

/// The four pictures of one shot: the only place that knows which curve means what. `title` stands above each;
/// `reference` completes level axes ("re full scale" or "re 20 uPa").

/// The wave from before the edge to after the impact, with edge, hits, tail and impact marked.
plot::Figure wave_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title);

/// Spectrograms of the hum range and of the whole, with the accepted tones marked. `highest_db`: top of the ramp of levels,
/// for pictures that are to be compared; nullopt: the shot's own.
plot::Figure spectrogram_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title,
                                const std::string& reference, std::optional<double> highest_db = std::nullopt);

/// Decay curves, A-weighted and unweighted, with the early and late fits.
plot::Figure decay_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title);

/// Spectrum of the tail over its noise, with the accepted tones named.
plot::Figure tail_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title,
                         const std::string& reference);

/// Where a tone stands in the drawn spectrum of a tail: its own frequency at the height of the line there, or of a bin within
/// 1.5 % that is higher; nullopt: outside the spectrum.
std::optional<plot::Point> place_on_tail(const shot::TailDensity& tail, double frequency_hz);

}  // namespace ringfall::report
