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

// Vectors of 16 bytes, which every x86-64 and ARM64 has.
constexpr std::size_t kLanes = 4;
using Words = std::uint32_t __attribute__((vector_size(16)));
using Integers = std::int32_t __attribute__((vector_size(16)));
using Floats = float __attribute__((vector_size(16)));

}  // namespace

void unpack_24_bit(const unsigned char* packed, std::span<float> out) {
  std::size_t done = 0;
  if constexpr (std::endian::native == std::endian::little) {
    // One load of four bytes from one byte early: the three wanted ones land on top. The rest four samples at a time.
    const auto word = [&](std::size_t k) {
      std::uint32_t bytes = 0;
      std::memcpy(&bytes, packed + kBytes * k - 1, sizeof bytes);
      return bytes;
    };
    for (; done + kLanes <= out.size(); done += kLanes) {
      const Words words = {word(done), word(done + 1), word(done + 2), word(done + 3)};
      const Floats samples = __builtin_convertvector(reinterpret_cast<Integers>(words & 0xFFFFFF00U), Floats) * 0x1p-31F;
      std::memcpy(out.data() + done, &samples, sizeof samples);
    }
  }
  for (; done < out.size(); ++done) {
    const unsigned char* sample = packed + kBytes * done;
    const std::uint32_t bytes = std::uint32_t{sample[0]} << 8 | std::uint32_t{sample[1]} << 16 | std::uint32_t{sample[2]} << 24;
    out[done] = static_cast<float>(static_cast<std::int32_t>(bytes)) * 0x1p-31F;
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
