// SPDX-License-Identifier: GPL-3.0-or-later
// Files that stop early or were never closed. Expected lengths: what was written and where it was cut.
#include <gtest/gtest.h>
#include <sndfile.h>

#include <filesystem>

#include "audio/test_sounds.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kFrames = 96000;  // 2 s

const Finding* truncated(const WholeSound& sound) {
  for (const Finding& finding : sound.findings) {
    if (finding.code == "truncated") return &finding;
  }
  return nullptr;
}

struct Kind {
  const char* name;
  int format;
  std::size_t frame_bytes;
};
const Kind kPlain[] = {{"wav16", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 2},   {"wav24", SF_FORMAT_WAV | SF_FORMAT_PCM_24, 3},
                       {"wavfloat", SF_FORMAT_WAV | SF_FORMAT_FLOAT, 4}, {"wavex24", SF_FORMAT_WAVEX | SF_FORMAT_PCM_24, 3},
                       {"rf64", SF_FORMAT_RF64 | SF_FORMAT_PCM_24, 3},   {"w64", SF_FORMAT_W64 | SF_FORMAT_PCM_24, 3},
                       {"aiff", SF_FORMAT_AIFF | SF_FORMAT_PCM_24, 3},   {"caf", SF_FORMAT_CAF | SF_FORMAT_PCM_24, 3},
                       {"au", SF_FORMAT_AU | SF_FORMAT_PCM_24, 3}};

class Truncated : public testing::TestWithParam<Kind> {};

TEST_P(Truncated, IsReadToWhereItEndsAndSaysSo) {
  const Kind& kind = GetParam();
  const TestFolder folder;
  const std::string path = folder.path(kind.name);
  const auto written = sine_with_impulse(48000.0, kFrames, 10000);
  write_by_sndfile(path, kind.format, 48000, 1, written);
  EXPECT_EQ(truncated(read_whole(path)), nullptr);
  const auto whole_bytes = std::filesystem::file_size(path);
  // Half a frame, a frame and a half, a third, most of it.
  for (const std::size_t frames_off : {std::size_t{1}, std::size_t{48000}, std::size_t{80000}}) {
    std::filesystem::resize_file(path, whole_bytes - frames_off * kind.frame_bytes - 1);
    const auto sound = read_whole(path, 1000);
    EXPECT_NEAR(static_cast<double>(sound.frames()), static_cast<double>(kFrames - frames_off), 2.0) << frames_off;
    EXPECT_EQ(loudest_frame(sound), 10000U);
    const Finding* finding = truncated(sound);
    ASSERT_NE(finding, nullptr) << frames_off;
    EXPECT_EQ(finding->severity, Severity::caution);
    EXPECT_NE(finding->sentence.find("states 2.00 s"), std::string::npos) << finding->sentence;
    if (frames_off == 48000U) {
      EXPECT_NE(finding->sentence.find("1.00 s of sound"), std::string::npos) << finding->sentence;
    }
    write_by_sndfile(path, kind.format, 48000, 1, written);
  }
}

INSTANTIATE_TEST_SUITE_P(Plain, Truncated, testing::ValuesIn(kPlain), [](const auto& one) { return one.param.name; });

TEST(TruncatedWav, NeverClosedIsReadWhole) {
  const TestFolder folder;
  const std::string path = folder.path("open.wav");
  write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_PCM_24, 48000, 1, sine_with_impulse(48000.0, kFrames, 90000));
  const std::string good = file_bytes(path);
  const std::size_t size_at = good.find("data") + 4;
  for (const std::string& size : {std::string(4, '\0'), std::string(4, '\xFF'), std::string("\x00\xF0\xFF\x7F", 4)}) {
    std::string bytes = good;
    bytes.replace(size_at, 4, size);
    bytes.replace(4, 4, size);
    write_bytes(path, bytes);
    const auto sound = read_whole(path);
    EXPECT_EQ(sound.frames(), kFrames);
    EXPECT_EQ(loudest_frame(sound), 90000U);
    const Finding* finding = truncated(sound);
    ASSERT_NE(finding, nullptr);
    EXPECT_NE(finding->sentence.find("never closed"), std::string::npos) << finding->sentence;
    EXPECT_NE(finding->sentence.find("2.00 s"), std::string::npos) << finding->sentence;
  }
}

TEST(TruncatedWav, SamplesFollowedByOtherChunksAreWhole) {
  const TestFolder folder;
  const std::string path = folder.path("tags.wav");
  write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_PCM_24, 48000, 1, sine_with_impulse(48000.0, 1001, 500));
  // An odd number of sample bytes, a pad byte, a chunk of somebody's.
  write_bytes(path, file_bytes(path) + std::string("junk\x04\x00\x00\x00" "abcd", 12));
  const auto sound = read_whole(path);
  EXPECT_EQ(sound.frames(), 1001U);
  EXPECT_EQ(truncated(sound), nullptr);
}

TEST(TruncatedFlac, CutInTheMiddleAndNeverFinished) {
  const TestFolder folder;
  const std::string path = folder.path("cut.flac");
  write_by_sndfile(path, SF_FORMAT_FLAC | SF_FORMAT_PCM_24, 48000, 1, sine_with_impulse(48000.0, kFrames, 10000));
  const std::string good = file_bytes(path);
  write_bytes(path, good.substr(0, good.size() / 2));
  auto sound = read_whole(path, 1000);
  EXPECT_GT(sound.frames(), kFrames / 4);
  EXPECT_LT(sound.frames(), kFrames * 3 / 4);
  EXPECT_EQ(loudest_frame(sound), 10000U);
  ASSERT_NE(truncated(sound), nullptr);
  EXPECT_NE(truncated(sound)->sentence.find("states 2.00 s"), std::string::npos) << truncated(sound)->sentence;
  // RFC 9639 section 8.2: the low 36 bits of bytes 21 to 25 of the file's start hold the number of samples, 0 for unknown.
  std::string open = good.substr(0, good.size() - 100);
  open[21] = static_cast<char>(open[21] & 0xF0);
  open.replace(22, 4, 4, '\0');
  write_bytes(path, open);
  sound = read_whole(path, 1000);
  EXPECT_FALSE(sound.format.frames.has_value());
  EXPECT_GT(sound.frames(), kFrames / 2);
  ASSERT_NE(truncated(sound), nullptr);
  EXPECT_NE(truncated(sound)->sentence.find("never closed"), std::string::npos) << truncated(sound)->sentence;
}

// Every format cut at many places: either a failure in words or the sound up to some point, never more than there was.
TEST(TruncatedAnywhere, NoCutIsMoreThanAFailureInWords) {
  const TestFolder folder;
  const std::string path = folder.path("cut");
  for (const int format : {SF_FORMAT_WAV | SF_FORMAT_PCM_24, SF_FORMAT_WAV | SF_FORMAT_IMA_ADPCM, SF_FORMAT_RF64 | SF_FORMAT_FLOAT,
                           SF_FORMAT_W64 | SF_FORMAT_PCM_16, SF_FORMAT_AIFF | SF_FORMAT_PCM_24, SF_FORMAT_CAF | SF_FORMAT_ALAC_16,
                           SF_FORMAT_FLAC | SF_FORMAT_PCM_16, SF_FORMAT_OGG | SF_FORMAT_VORBIS, SF_FORMAT_OGG | SF_FORMAT_OPUS,
                           SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III}) {
    write_by_sndfile(path, format, 48000, 1, sine_with_impulse(48000.0, 12000, 6000));
    const std::string good = file_bytes(path);
    for (std::size_t k = 1; k <= 80; ++k) {
      const std::size_t bytes = k <= 40 ? k * 3 : good.size() * (k - 40) / 41;
      if (bytes >= good.size()) continue;
      write_bytes(path, good.substr(0, bytes));
      std::size_t frames = 0;
      const std::string message = failure_of([&] { frames = read_whole(path, 512, {"/nowhere", 30.0}).frames(); });
      EXPECT_LE(frames, 13200U) << std::hex << format << " cut at " << std::dec << bytes;
      if (!message.empty()) {
        EXPECT_NE(message.find(path), std::string::npos) << message;
      }
    }
  }
}

}  // namespace
}  // namespace ringfall::audio
