// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_bytes.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/failure.h"

namespace ringfall::audio {
namespace {

TEST(SoundBytes, ComeBackExactly) {
  std::vector<float> samples(5000);
  for (std::size_t k = 0; k < samples.size(); ++k) {
    // Whole multiples of 2^-23, what 24 bits hold, both ends of the range among them.
    samples[k] = static_cast<float>(std::ldexp(std::round(8388607.0 * std::sin(0.1 * static_cast<double>(k * k))), -23));
  }
  samples[0] = -1.0F;
  EXPECT_EQ(samples_of_bytes(sound_bytes(samples, 48000.0, SampleCoding::flac_24_bit)), samples);
  samples[1] = 1.75F;  // floats go above full scale
  samples[2] = 1e-9F;
  EXPECT_EQ(samples_of_bytes(sound_bytes(samples, 44100.0, SampleCoding::wav_float)), samples);
  EXPECT_THROW(samples_of_bytes("no sound"), FileFailure);
}

}  // namespace
}  // namespace ringfall::audio
