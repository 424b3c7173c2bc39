// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/packed_24_bit.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <cstring>

namespace ringfall::audio {
namespace {

// Measured best of 1k .. 256k samples (docs/measures/sound_files.md#speed): fits the second-level cache.
constexpr std::size_t kBufferSamples = 65536;
constexpr std::size_t kBytes = 3;

}  // namespace

void unpack_24_bit(const unsigned char* packed, std::span<float> out) {
  for (std::size_t k = 0; k < out.size(); ++k) {
    if constexpr (std::endian::native == std::endian::little) {
      // One load of four bytes from one byte early: the three wanted ones land on top.
      std::uint32_t word = 0;
      std::memcpy(&word, packed + kBytes * k - 1, sizeof word);
      out[k] = static_cast<float>(static_cast<std::int32_t>(word & 0xFFFFFF00U)) * 0x1p-31F;
    } else {
      const unsigned char* sample = packed + kBytes * k;
      const std::uint32_t word = std::uint32_t{sample[0]} << 8 | std::uint32_t{sample[1]} << 16 | std::uint32_t{sample[2]} << 24;
      out[k] = static_cast<float>(static_cast<std::int32_t>(word)) * 0x1p-31F;
    }
  }
}

Packed24BitReader::Packed24BitReader(int channels)
    : channels_(static_cast<std::size_t>(channels)),
      bytes_(std::max<std::size_t>(1, kBufferSamples / channels_) * channels_ * kBytes + 1) {}

std::size_t Packed24BitReader::refill(SNDFILE* file) {
  const auto got = sf_read_raw(file, bytes_.data() + 1, static_cast<sf_count_t>(bytes_.size() - 1));
  next_sample_ = 0;
  samples_ = got <= 0 ? 0 : static_cast<std::size_t>(got) / (kBytes * channels_) * channels_;
  return samples_;
}

std::size_t Packed24BitReader::read(SNDFILE* file, std::span<float> interleaved) {
  std::size_t done = 0;
  while (done < interleaved.size()) {
    if (next_sample_ == samples_ && refill(file) == 0) break;
    const std::size_t count = std::min(interleaved.size() - done, samples_ - next_sample_);
    unpack_24_bit(bytes_.data() + 1 + kBytes * next_sample_, interleaved.subspan(done, count));
    done += count;
    next_sample_ += count;
  }
  return done / channels_;
}

}  // namespace ringfall::audio
