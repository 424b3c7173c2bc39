// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>

namespace ringfall::audio {

/// The nearest integer of so many bits, clipped, at the top of 32 bits as libsndfile's sf_write_int wants it; NaN becomes 0. Our own
/// rounding: libsndfile's wraps above full scale, or cuts off with SFC_SET_CLIPPING.
inline int left_justified(float sample, int bits) {
  const double full_scale = std::ldexp(1.0, bits - 1);
  const double scaled = std::isnan(sample) ? 0.0 : std::nearbyint(static_cast<double>(sample) * full_scale);
  return static_cast<int>(std::clamp(scaled, -full_scale, full_scale - 1.0)) * (1 << (32 - bits));
}

}  // namespace ringfall::audio
