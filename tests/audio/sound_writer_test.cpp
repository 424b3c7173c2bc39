// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>

#include <cmath>
#include <filesystem>
#include <limits>

#include "audio/sound_writer.h"
#include "audio/test_sounds.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

std::size_t files_in(const TestFolder& folder) {
  const std::filesystem::directory_iterator all(folder.str());
  return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

TEST(SoundWriter, RoundsToTheNearestStepAndClips) {
  const TestFolder folder;
  struct {
    SampleCoding coding;
    double steps;
    const char* description;
  } const cases[] = {{SampleCoding::wav_16_bit, 32768.0, "WAV, 16-bit PCM"},
                     {SampleCoding::wav_24_bit, 8388608.0, "WAV, 24-bit PCM"},
                     {SampleCoding::flac_24_bit, 8388608.0, "FLAC, 24-bit lossless"}};
  const std::vector<float> samples{0.0F, 0.1F, -0.1F, 1.0F, -1.0F, 1.5F, -7.0F, 1e-9F, std::numeric_limits<float>::quiet_NaN()};
  for (const auto& c : cases) {
    const std::string path = folder.path("w");
    SoundWriter writer(path, 44100.0, 1, c.coding);
    writer.write(samples);
    writer.close();
    const auto sound = read_whole(path);
    EXPECT_EQ(sound.format.description, c.description);
    ASSERT_EQ(sound.samples.size(), samples.size());
    const auto top = static_cast<float>((c.steps - 1.0) / c.steps);
    const auto nearest = [&](float x) { return static_cast<float>(std::round(static_cast<double>(x) * c.steps) / c.steps); };
    EXPECT_EQ(sound.samples, (std::vector<float>{0.0F, nearest(0.1F), nearest(-0.1F), top, -1.0F, top, -1.0F, 0.0F, 0.0F}));
  }
}

TEST(SoundWriter, FloatKeepsEverythingAndFilesAreTheSameEveryTime) {
  const TestFolder folder;
  const auto samples = sine_with_impulse(48000.0, 5000, 77);
  write_wav(folder.path("a.wav"), samples, 48000.0);
  write_wav(folder.path("b.wav"), samples, 48000.0);
  EXPECT_EQ(read_whole(folder.path("a.wav")).samples, samples);
  EXPECT_EQ(file_bytes(folder.path("a.wav")), file_bytes(folder.path("b.wav")));
  // A peak chunk would hold the time of writing.
  EXPECT_EQ(file_bytes(folder.path("a.wav")).find("PEAK"), std::string::npos);
  write_wav(folder.path("hot.wav"), std::vector<float>{2.5F, -3.0F}, 8000.0);
  EXPECT_EQ(read_whole(folder.path("hot.wav")).samples, (std::vector<float>{2.5F, -3.0F}));
}

TEST(SoundWriter, BlocksOfSeveralChannels) {
  const TestFolder folder;
  SoundWriter writer(folder.path("two.wav"), 96000.0, 2, SampleCoding::wav_float);
  const auto samples = sine_with_impulse(96000.0, 3000, 1234, 2);
  writer.write(std::span(samples).first(2000));
  writer.write(std::span(samples).subspan(2000));
  EXPECT_FALSE(std::filesystem::exists(folder.path("two.wav")));  // not before it is whole
  writer.close();
  const auto sound = read_whole(folder.path("two.wav"));
  EXPECT_EQ(sound.format.channels, 2);
  EXPECT_EQ(sound.samples, samples);
  EXPECT_EQ(files_in(folder), 1U);
}

TEST(SoundWriter, LeavesNothingWhenItIsNotClosed) {
  const TestFolder folder;
  write_bytes(folder.path("keep.wav"), "what was there before");
  {
    SoundWriter writer(folder.path("keep.wav"), 48000.0, 1, SampleCoding::wav_24_bit);
    writer.write(std::vector<float>(1000, 0.1F));
  }
  EXPECT_EQ(file_bytes(folder.path("keep.wav")), "what was there before");
  EXPECT_EQ(files_in(folder), 1U);
}

TEST(SoundWriter, RefusesInWords) {
  const TestFolder folder;
  const std::string nowhere = folder.path("no/such/folder.wav");
  const std::string message = failure_of([&] { write_wav(nowhere, std::vector<float>(10), 48000.0); });
  EXPECT_NE(message.find(nowhere), std::string::npos) << message;
  EXPECT_NE(message.find("folder exists"), std::string::npos) << message;
  std::filesystem::create_directory(folder.path("dir.wav"));
  EXPECT_NE(failure_of([&] { write_wav(folder.path("dir.wav"), std::vector<float>(10), 48000.0); }), "");
  EXPECT_NE(failure_of([&] { SoundWriter(folder.path("x.flac"), 48000.0, 99, SampleCoding::flac_24_bit); }), "");
  EXPECT_EQ(files_in(folder), 1U);
}

// A disk that fills up, played by the limit on a file's size: writing fails with EFBIG instead of ENOSPC.
TEST(SoundWriter, FullDiskIsAFailureAndLeavesNoHalfFile) {
  const TestFolder folder;
  rlimit before{};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto handler = ::signal(SIGXFSZ, SIG_IGN);
  for (const SampleCoding coding : {SampleCoding::wav_float, SampleCoding::wav_24_bit, SampleCoding::flac_24_bit}) {
    const rlimit small{100000, before.rlim_max};
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
    std::vector<float> noise(100000);
    unsigned state = 1;
    for (float& x : noise) x = static_cast<float>((state = state * 1664525U + 1013904223U) >> 8U) / 16777216.0F - 0.5F;
    const std::string message = failure_of([&] {
      SoundWriter writer(folder.path("big"), 48000.0, 1, coding);
      writer.write(noise);
      writer.close();
    });
    ::setrlimit(RLIMIT_FSIZE, &before);
    EXPECT_NE(message.find("could not be written to its end"), std::string::npos) << message;
    EXPECT_EQ(files_in(folder), 0U);
  }
  ::signal(SIGXFSZ, handler);
}

}  // namespace
}  // namespace ringfall::audio
