// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_bytes.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/failure.h"
#include "base/whole_file.h"
#include "support/test_folder.h"

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

// A logbook tells doubles by their bytes: those made in memory are those of a file.
TEST(SoundBytes, AreThoseOfAFile) {
  std::vector<float> samples(50000);
  for (std::size_t k = 0; k < samples.size(); ++k) samples[k] = static_cast<float>(0.9 * std::sin(0.05 * static_cast<double>(k)));
  for (const auto coding : {SampleCoding::flac_24_bit, SampleCoding::wav_float}) {
    const TestFolder folder;
    SoundWriter writer(folder.path("a"), 48000.0, 1, coding);
    writer.write(samples);
    writer.close();
    EXPECT_EQ(sound_bytes(samples, 48000.0, coding), whole_file(folder.path("a"), 1U << 24U));
  }
}

TEST(SoundBytes, WhatIsCutOffIsDamaged) {
  const std::vector<float> samples(5000, 0.25F);
  for (const auto coding : {SampleCoding::flac_24_bit, SampleCoding::wav_float}) {
    const std::string bytes = sound_bytes(samples, 48000.0, coding);
    for (const std::size_t cut : {bytes.size() - 1, bytes.size() / 2, std::size_t{60}, std::size_t{12}, std::size_t{4}, std::size_t{0}}) {
      EXPECT_THROW(samples_of_bytes(bytes.substr(0, cut)), FileFailure) << cut << " of " << bytes.size();
    }
  }
}

}  // namespace
}  // namespace ringfall::audio
