// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <span>

namespace ringfall::audio {

/// Does every sample survive as a 24-bit integer? (Then FLAC keeps it as it is.)
inline bool exact_in_24_bit(std::span<const float> samples) {
  constexpr float kScale = 8388608.0F;
  return std::ranges::all_of(samples, [](float sample) {
    const float scaled = sample * kScale;
    return scaled >= -kScale && scaled < kScale && scaled == std::floor(scaled);
  });
}

}  // namespace ringfall::audio
