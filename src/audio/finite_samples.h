// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "base/finding.h"

namespace ringfall::audio {

/// Replaces NaN and infinite samples by 0 in successive blocks of a stream, and remembers how many and where.
class FiniteSamples {
 public:
  /// The next block, `channels` interleaved.
  void mend(std::span<float> block, int channels);
  /// `bad_samples` when there were any.
  std::optional<Finding> finding(double sample_rate_hz) const;

 private:
  std::int64_t frames_seen_ = 0;
  std::int64_t bad_ = 0;
  std::int64_t first_bad_frame_ = 0;
};

}  // namespace ringfall::audio
