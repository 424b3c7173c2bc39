// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <sndfile.h>

#include <cmath>
#include <numbers>

#include "audio/channel_reader.h"
#include "audio/test_sounds.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kFrames = 48000;

/// Two seconds at 24 kHz of channels given as functions of the sample index.
void write_channels(const std::string& path, const std::vector<std::function<double(std::size_t)>>& channels) {
  std::vector<float> samples;
  for (std::size_t k = 0; k < kFrames; ++k) {
    for (const auto& channel : channels) samples.push_back(static_cast<float>(channel(k)));
  }
  write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_FLOAT, 24000, static_cast<int>(channels.size()), samples);
}

double silence(std::size_t) { return 0.0; }
double constant(std::size_t) { return 0.7; }
double hum(std::size_t k) { return 0.3 * std::sin(2.0 * std::numbers::pi * 50.0 * static_cast<double>(k) / 24000.0); }
// Ten decaying 2 kHz bursts, quieter in peak and in energy than the hum.
double shots(std::size_t k) {
  const double t = static_cast<double>(k % 4800) / 24000.0;
  return 0.2 * std::exp(-t / 0.02) * std::sin(2.0 * std::numbers::pi * 2000.0 * t);
}
double quiet_shots(std::size_t k) { return 0.5 * shots(k); }

TEST(LoudestChannel, IsTheOneWithTheShots) {
  const TestFolder folder;
  const std::string path = folder.path("c.wav");
  const auto loudest = [&](const std::vector<std::function<double(std::size_t)>>& channels) {
    write_channels(path, channels);
    return loudest_channel(path);
  };
  EXPECT_EQ(loudest({shots}), 0);
  EXPECT_EQ(loudest({silence, shots}), 1);
  EXPECT_EQ(loudest({constant, shots}), 1);
  EXPECT_EQ(loudest({hum, shots}), 1);
  EXPECT_EQ(loudest({shots, hum}), 0);
  EXPECT_EQ(loudest({quiet_shots, hum, constant, shots, silence}), 3);
  EXPECT_EQ(loudest({quiet_shots, shots, shots}), 1);  // equals: the lower one
  EXPECT_EQ(loudest({shots, shots}), 0);
  EXPECT_EQ(loudest({silence, constant}), 0);  // none is live
}

TEST(ChannelReader, TakesOneChannelInAnyBlockSize) {
  const TestFolder folder;
  const std::string path = folder.path("c.wav");
  write_channels(path, {hum, shots, constant});
  for (const std::size_t block_frames : {std::size_t{1}, std::size_t{777}, std::size_t{100000}}) {
    ChannelReader reader(open_sound(path), 1);
    EXPECT_EQ(reader.channel(), 1);
    EXPECT_EQ(reader.format().channels, 3);
    std::vector<float> all;
    std::vector<float> block(block_frames);
    while (const std::size_t got = reader.read(block)) {
      all.insert(all.end(), block.begin(), block.begin() + static_cast<std::ptrdiff_t>(got));
    }
    ASSERT_EQ(all.size(), kFrames);
    for (std::size_t k = 0; k < kFrames; ++k) ASSERT_EQ(all[k], static_cast<float>(shots(k))) << k;
    EXPECT_TRUE(reader.findings().empty());
  }
}

TEST(ChannelReader, RefusesAChannelThatIsNotThereCountingFromOne) {
  const TestFolder folder;
  write_channels(folder.path("one.wav"), {shots});
  write_channels(folder.path("two.wav"), {shots, hum});
  const auto refusal = [&](const char* name, int channel) {
    try {
      ChannelReader(open_sound(folder.path(name)), channel);
    } catch (const RequestFailure& failure) {
      return std::string(failure.what());
    }
    return std::string();
  };
  EXPECT_NE(refusal("two.wav", 2).find("Channel 3 was asked for, but the recording has 2 channels"), std::string::npos);
  EXPECT_NE(refusal("one.wav", 1).find("mono"), std::string::npos);
  EXPECT_NE(refusal("two.wav", -1), "");
  EXPECT_EQ(refusal("two.wav", 1), "");
  EXPECT_EQ(refusal("one.wav", 0), "");
}

}  // namespace
}  // namespace ringfall::audio
