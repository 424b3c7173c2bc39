// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/excerpt.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "base/units.h"

namespace ringfall::report {
namespace {

constexpr double kExcerptBegin_s = -0.15;
constexpr double kExcerptEnd_s = 0.85;
constexpr double kFade_s = 0.010;
constexpr double kLoudestPeak_db = -1.0;

}  // namespace

std::vector<float> excerpt_of(const shot::Clip& clip) {
  const auto size = static_cast<std::int64_t>(clip.samples.size());
  const auto place = [&](double seconds) {
    return std::clamp<std::int64_t>(clip.onset_sample - clip.first_sample + std::llround(seconds * clip.sample_rate_hz), 0, size);
  };
  std::vector<float> samples(clip.samples.begin() + place(kExcerptBegin_s), clip.samples.begin() + place(kExcerptEnd_s));
  // Cut sound clicks at its ends.
  const std::size_t fade = std::min(samples.size() / 2, static_cast<std::size_t>(kFade_s * clip.sample_rate_hz));
  for (std::size_t k = 0; k < fade; ++k) {
    const float gain = static_cast<float>(k) / static_cast<float>(fade);
    samples[k] *= gain;
    samples[samples.size() - 1 - k] *= gain;
  }
  return samples;
}

double common_gain_db(const std::vector<std::vector<float>>& excerpts) {
  float peak = 0.0F;
  for (const auto& excerpt : excerpts) {
    for (const float sample : excerpt) peak = std::max(peak, std::abs(sample));
  }
  return peak > 0.0F ? kLoudestPeak_db - amplitude_to_db(static_cast<double>(peak)) : 0.0;
}

}  // namespace ringfall::report
