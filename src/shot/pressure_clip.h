// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "shot/clip.h"
#include "shot/settings.h"

namespace ringfall::shot {

/// A clip as sound pressure [Pa], offset from zero taken off, with times counted from the loud edge.
class PressureClip {
 public:
  PressureClip(const Clip& clip, const Scale& scale);

  double sample_rate_hz() const { return sample_rate_hz_; }
  std::span<const double> all() const { return pressure_pa_; }
  std::size_t edge() const { return edge_; }  ///< index of the first sample at or after the loud edge
  double begin_s() const;                     ///< of the clip, <= 0
  double end_s() const;                       ///< of the clip, > 0
  /// The samples from begin_s up to end_s after the edge, cut to what there is.
  std::span<const double> between(double begin_s, double end_s) const;

 private:
  std::vector<double> pressure_pa_;
  double sample_rate_hz_;
  double edge_position_;  // in samples, with fraction
  std::size_t edge_;
};

/// How long the shot can be heard alone, in seconds after the edge: to the impact less a guard, a next shot less a guard, the
/// clip's end or tail_limit_s, whichever comes first.
double undisturbed_s(const Clip& clip, const MeasureSettings& settings);

}  // namespace ringfall::shot
