// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/pressure_clip.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "base/check.h"
#include "shot/clip_faults.h"

namespace ringfall::shot {

PressureClip::PressureClip(const Clip& clip, const Scale& scale)
    : sample_rate_hz_(clip.sample_rate_hz),
      edge_position_(static_cast<double>(clip.onset_sample - clip.first_sample) + clip.onset_fraction),
      edge_(static_cast<std::size_t>(std::ceil(std::max(edge_position_, 0.0)))) {
  check(edge_position_ >= 0.0 && edge_ < clip.samples.size(), "the loud edge lies inside its clip");
  const double gain = scale.pascal_per_unit();
  const double dc = dc_of(clip);
  pressure_pa_.resize(clip.samples.size());
  for (std::size_t n = 0; n < pressure_pa_.size(); ++n) {
    pressure_pa_[n] = gain * (static_cast<double>(clip.samples[n]) - dc);
  }
}

double PressureClip::begin_s() const { return -edge_position_ / sample_rate_hz_; }

double PressureClip::end_s() const {
  return (static_cast<double>(pressure_pa_.size()) - edge_position_) / sample_rate_hz_;
}

std::span<const double> PressureClip::between(double begin_s, double end_s) const {
  const auto size = static_cast<double>(pressure_pa_.size());
  const auto index = [&](double time_s) {
    return static_cast<std::size_t>(
        std::clamp(std::ceil(edge_position_ + time_s * sample_rate_hz_ - 1e-9), 0.0, size));
  };
  const std::size_t begin = index(begin_s);
  return std::span(pressure_pa_).subspan(begin, std::max(index(end_s), begin) - begin);
}

double undisturbed_s(const Clip& clip, const MeasureSettings& settings) {
  const auto after_edge_s = [&clip](std::int64_t sample) {
    return (static_cast<double>(sample - clip.onset_sample) - clip.onset_fraction) / clip.sample_rate_hz;
  };
  double end_s = std::min(settings.tail_limit_s,
                          after_edge_s(clip.first_sample + static_cast<std::int64_t>(clip.samples.size())));
  for (const auto& disturbance : {clip.impact_sample, clip.next_shot_sample}) {
    if (disturbance) end_s = std::min(end_s, after_edge_s(*disturbance) - settings.impact_guard_s);
  }
  return std::max(end_s, 0.0);
}

}  // namespace ringfall::shot
