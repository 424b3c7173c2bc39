// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>

namespace ringfall::shot {

/// Where a sound's energy rises most steeply.
struct LoudEdge {
  double position = 0.0;  ///< in samples from the span's start, sub-sample
  double rise_db = 0.0;   ///< mean power of the millisecond after over that before
};

/// The loud edge: the time n at which 10 lg(power of the first millisecond from n / power of the millisecond before n)
/// is highest, weighted by the power after it so that a faint rise in silence does not win over the edge itself.
/// Works on the first difference of the samples, as the finder does. `from` .. `to`: indices searched;
/// the span must hold 2 ms around them or is taken as silent outside.
/// Accuracy: docs/measures/shots.md. Source: own; steepest rise of short-time energy is common practice, no source.
/// Tested: shot.LoudEdge.*
LoudEdge loud_edge(std::span<const float> samples, double sample_rate_hz, std::size_t from, std::size_t to);

}  // namespace ringfall::shot
