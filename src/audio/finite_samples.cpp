// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/finite_samples.h"

#include <bit>

#include "audio/sound_findings.h"

namespace ringfall::audio {
namespace {

// IEC 60559 binary32: all eight exponent bits set mean infinity or NaN. On the bits, so that the loop vectorises.
bool not_finite(float sample) { return (std::bit_cast<std::uint32_t>(sample) & 0x7F800000U) == 0x7F800000U; }

}  // namespace

void FiniteSamples::mend(std::span<float> block, int channels) {
  std::uint32_t any = 0;
  for (const float sample : block) any |= static_cast<std::uint32_t>(not_finite(sample));
  if (any != 0) {
    for (std::size_t k = 0; k < block.size(); ++k) {
      if (!not_finite(block[k])) continue;
      if (bad_++ == 0) first_bad_frame_ = frames_seen_ + static_cast<std::int64_t>(k) / channels;
      block[k] = 0.0F;
    }
  }
  frames_seen_ += static_cast<std::int64_t>(block.size()) / channels;
}

std::optional<Finding> FiniteSamples::finding(double sample_rate_hz) const {
  if (bad_ == 0) return std::nullopt;
  return bad_samples_finding(bad_, static_cast<double>(first_bad_frame_) / sample_rate_hz);
}

}  // namespace ringfall::audio
