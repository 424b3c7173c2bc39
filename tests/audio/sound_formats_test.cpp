// SPDX-License-Identifier: GPL-3.0-or-later
// Every format libsndfile writes, read back. Expected values: what was written (a sine with one impulse), or the definition of
// two's complement PCM: integer / 2^(bits - 1).
#include <gtest/gtest.h>
#include <sndfile.h>

#include <cmath>
#include <limits>

#include "audio/test_sounds.h"

namespace ringfall::audio {
namespace {

struct Case {
  const char* name;
  int format;
  const char* description;
  bool lossy;
  bool integer;
  int bits;
  double tolerance;  ///< of a sample, for lossless ones: one step, libsndfile's writer cuts off
};

constexpr double kStep8 = 1.0 / 128, kStep16 = 1.0 / 32768, kStep24 = 1.0 / 8388608;
const Case kCases[] = {
    {"wav8", SF_FORMAT_WAV | SF_FORMAT_PCM_U8, "WAV, 8-bit PCM", false, true, 8, kStep8},
    {"wav16", SF_FORMAT_WAV | SF_FORMAT_PCM_16, "WAV, 16-bit PCM", false, true, 16, kStep16},
    {"wav24", SF_FORMAT_WAV | SF_FORMAT_PCM_24, "WAV, 24-bit PCM", false, true, 24, kStep24},
    {"wav32", SF_FORMAT_WAV | SF_FORMAT_PCM_32, "WAV, 32-bit PCM", false, true, 32, kStep24},
    {"wavfloat", SF_FORMAT_WAV | SF_FORMAT_FLOAT, "WAV, 32-bit float", false, false, 32, 0.0},
    {"wavdouble", SF_FORMAT_WAV | SF_FORMAT_DOUBLE, "WAV, 64-bit float", false, false, 64, 0.0},
    {"wavex24", SF_FORMAT_WAVEX | SF_FORMAT_PCM_24, "WAV, 24-bit PCM", false, true, 24, kStep24},
    {"rf64_24", SF_FORMAT_RF64 | SF_FORMAT_PCM_24, "RF64, 24-bit PCM", false, true, 24, kStep24},
    {"w64_24", SF_FORMAT_W64 | SF_FORMAT_PCM_24, "W64, 24-bit PCM", false, true, 24, kStep24},
    {"w64float", SF_FORMAT_W64 | SF_FORMAT_FLOAT, "W64, 32-bit float", false, false, 32, 0.0},
    {"rifx24", SF_FORMAT_WAV | SF_FORMAT_PCM_24 | SF_ENDIAN_BIG, "WAV, 24-bit PCM", false, true, 24, kStep24},
    {"aiff16", SF_FORMAT_AIFF | SF_FORMAT_PCM_16, "AIFF, 16-bit PCM", false, true, 16, kStep16},
    {"aiff24", SF_FORMAT_AIFF | SF_FORMAT_PCM_24, "AIFF, 24-bit PCM", false, true, 24, kStep24},
    {"aifffloat", SF_FORMAT_AIFF | SF_FORMAT_FLOAT, "AIFF, 32-bit float", false, false, 32, 0.0},
    {"caf24", SF_FORMAT_CAF | SF_FORMAT_PCM_24, "CAF, 24-bit PCM", false, true, 24, kStep24},
    {"cafalac", SF_FORMAT_CAF | SF_FORMAT_ALAC_24, "CAF, 24-bit ALAC", false, true, 24, kStep24},
    {"au24", SF_FORMAT_AU | SF_FORMAT_PCM_24, "AU, 24-bit PCM", false, true, 24, kStep24},
    {"flac16", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, "FLAC, 16-bit lossless", false, true, 16, kStep16},
    {"flac24", SF_FORMAT_FLAC | SF_FORMAT_PCM_24, "FLAC, 24-bit lossless", false, true, 24, kStep24},
    {"vorbis", SF_FORMAT_OGG | SF_FORMAT_VORBIS, "Ogg, Vorbis", true, false, 0, 0.0},
    {"opus", SF_FORMAT_OGG | SF_FORMAT_OPUS, "Ogg, Opus", true, false, 0, 0.0},
    {"mp3", SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III, "MP3, MPEG layer III", true, false, 0, 0.0},
};

class SoundFormats : public testing::TestWithParam<Case> {};

TEST_P(SoundFormats, ComesBackAsWritten) {
  const Case& c = GetParam();
  const TestFolder folder;
  const std::string path = folder.path(c.name);
  const auto written = sine_with_impulse(48000.0, 48000, 24000, 2);
  write_by_sndfile(path, c.format, 48000, 2, written);
  // A block that divides neither the file nor the decoder's own buffers.
  const auto sound = read_whole(path, 1237);
  EXPECT_EQ(sound.format.description, c.description);
  EXPECT_EQ(sound.format.sample_rate_hz, 48000.0);
  EXPECT_EQ(sound.format.channels, 2);
  EXPECT_EQ(sound.format.lossy, c.lossy);
  EXPECT_EQ(sound.format.integer_samples, c.integer);
  EXPECT_EQ(sound.format.bits, c.bits);
  EXPECT_EQ(has_finding(sound.findings, "lossy_codec"), c.lossy);
  EXPECT_FALSE(has_finding(sound.findings, "truncated"));
  if (c.lossy) {
    // 1 ms: far less than any frame of a codec, so a lost encoder delay would show.
    EXPECT_NEAR(static_cast<double>(loudest_frame(sound)), 24000.0, 48.0);
    EXPECT_NEAR(static_cast<double>(sound.frames()), 48000.0, 0.1 * 48000.0);
    return;
  }
  ASSERT_EQ(sound.format.frames, 48000);
  ASSERT_EQ(sound.samples.size(), written.size());
  double worst = 0.0;
  for (std::size_t k = 0; k < written.size(); ++k) {
    worst = std::max(worst, static_cast<double>(std::abs(sound.samples[k] - written[k])));
  }
  EXPECT_LE(worst, c.tolerance * 1.001);
}

INSTANTIATE_TEST_SUITE_P(All, SoundFormats, testing::ValuesIn(kCases), [](const auto& one) { return one.param.name; });

TEST(SoundScale, FullScaleIsOneAtEveryDepth) {
  const TestFolder folder;
  for (const auto& [bits, format] : {std::pair{8, SF_FORMAT_PCM_U8}, std::pair{16, SF_FORMAT_PCM_16}, std::pair{24, SF_FORMAT_PCM_24},
                                     std::pair{32, SF_FORMAT_PCM_32}}) {
    const std::string path = folder.path("full" + std::to_string(bits) + ".wav");
    write_by_sndfile(path, SF_FORMAT_WAV | format, 48000, 1, {1.0F, -1.0F, 0.0F, 0.5F, -0.5F});
    const auto sound = read_whole(path);
    const double step = std::pow(2.0, 1 - bits) + std::pow(2.0, -24);
    ASSERT_EQ(sound.samples.size(), 5U);
    EXPECT_NEAR(static_cast<double>(sound.samples[0]), 1.0, step) << bits;
    EXPECT_EQ(sound.samples[1], -1.0F) << bits;
    EXPECT_EQ(sound.samples[2], 0.0F) << bits;
    EXPECT_NEAR(static_cast<double>(sound.samples[3]), 0.5, step) << bits;
    EXPECT_NEAR(static_cast<double>(sound.samples[4]), -0.5, step) << bits;
  }
}

// The four corner values of 24-bit two's complement, written as bytes by hand: 0x7FFFFF, 0x800000, 0x000001, 0xFFFFFF.
TEST(SoundScale, Packed24BitCornersAreExact) {
  const TestFolder folder;
  const std::string path = folder.path("corners.wav");
  write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_PCM_24, 48000, 1, std::vector<float>(4, 0.0F));
  std::string bytes = file_bytes(path);
  const std::size_t data = bytes.find("data") + 8;
  bytes.replace(data, 12, std::string("\xFF\xFF\x7F\x00\x00\x80\x01\x00\x00\xFF\xFF\xFF", 12));
  write_bytes(path, bytes);
  const auto sound = read_whole(path, 1);
  ASSERT_EQ(sound.samples.size(), 4U);
  EXPECT_EQ(sound.samples[0], 8388607.0F / 8388608.0F);
  EXPECT_EQ(sound.samples[1], -1.0F);
  EXPECT_EQ(sound.samples[2], 1.0F / 8388608.0F);
  EXPECT_EQ(sound.samples[3], -1.0F / 8388608.0F);
}

TEST(SoundScale, FloatsAboveFullScaleAreKept) {
  const TestFolder folder;
  write_by_sndfile(folder.path("hot.wav"), SF_FORMAT_WAV | SF_FORMAT_FLOAT, 48000, 1, {0.0F, 1.5F, -3.25F, 0.0F});
  const auto sound = read_whole(folder.path("hot.wav"));
  EXPECT_EQ(sound.samples, (std::vector<float>{0.0F, 1.5F, -3.25F, 0.0F}));
  EXPECT_TRUE(sound.findings.empty());
}

TEST(SoundScale, SamplesThatAreNoNumbersAreReadAsZeroCountedAndPlaced) {
  const TestFolder folder;
  std::vector<float> samples(96000, 0.25F);
  samples[48000] = std::numeric_limits<float>::quiet_NaN();
  samples[48001] = std::numeric_limits<float>::infinity();
  samples[90001] = -std::numeric_limits<float>::infinity();
  write_by_sndfile(folder.path("nan.wav"), SF_FORMAT_WAV | SF_FORMAT_FLOAT, 48000, 2, samples);
  const auto sound = read_whole(folder.path("nan.wav"), 20000);
  EXPECT_EQ(sound.samples[48000], 0.0F);
  EXPECT_EQ(sound.samples[48001], 0.0F);
  EXPECT_EQ(sound.samples[90001], 0.0F);
  EXPECT_EQ(sound.samples[48002], 0.25F);
  ASSERT_EQ(sound.findings.size(), 1U);
  EXPECT_EQ(sound.findings[0].code, "bad_samples");
  EXPECT_EQ(sound.findings[0].severity, Severity::caution);
  // Sample 48000 of two channels is frame 24000: 0.5 s.
  EXPECT_NE(sound.findings[0].sentence.find("3 samples are no number"), std::string::npos) << sound.findings[0].sentence;
  EXPECT_NE(sound.findings[0].sentence.find("0:00.50"), std::string::npos) << sound.findings[0].sentence;
}

TEST(SoundRates, AllOrdinaryRatesAndChannelCountsAreRead) {
  const TestFolder folder;
  for (const int rate : {8000, 16000, 22050, 44100, 48000, 96000, 192000}) {
    const std::string path = folder.path(std::to_string(rate) + ".wav");
    write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_PCM_24, rate, 1, sine_with_impulse(rate, 4000, 1000));
    const auto sound = read_whole(path);
    EXPECT_EQ(sound.format.sample_rate_hz, rate);
    EXPECT_EQ(loudest_frame(sound), 1000U);
  }
  for (int channels = 1; channels <= 8; ++channels) {
    const std::string path = folder.path("channels.wav");
    const auto written = sine_with_impulse(48000.0, 30011, 1000, channels);
    write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_PCM_24, 48000, channels, written);
    const auto sound = read_whole(path, 7001);
    EXPECT_EQ(sound.format.channels, channels);
    ASSERT_EQ(sound.samples.size(), written.size());
    for (std::size_t k = 0; k < written.size(); k += 997) EXPECT_NEAR(static_cast<double>(sound.samples[k]), static_cast<double>(written[k]), kStep24);
  }
}

TEST(SoundRates, RatesOutsideTheRangeAreRefusedInWords) {
  const TestFolder folder;
  for (const int rate : {7999, 192001, 384000, 100}) {
    const std::string path = folder.path("odd.wav");
    write_by_sndfile(path, SF_FORMAT_WAV | SF_FORMAT_PCM_16, rate, 1, std::vector<float>(100, 0.1F));
    const std::string message = failure_of([&] { open_sound(path); });
    EXPECT_NE(message.find(std::to_string(rate) + " samples a second"), std::string::npos) << message;
    EXPECT_NE(message.find("odd.wav"), std::string::npos);
  }
}

TEST(LossyCodec, SpeechCodecsAreACautionMusicCodecsANote) {
  const TestFolder folder;
  const auto severity = [&](int format) {
    write_by_sndfile(folder.path("codec"), format, 8000, 1, sine_with_impulse(8000.0, 8000, 4000));
    const auto sound = read_whole(folder.path("codec"));
    return sound.findings.empty() ? std::string("none") : std::string(severity_name(sound.findings[0].severity));
  };
  EXPECT_EQ(severity(SF_FORMAT_WAV | SF_FORMAT_GSM610), "caution");
  EXPECT_EQ(severity(SF_FORMAT_WAV | SF_FORMAT_IMA_ADPCM), "caution");
  EXPECT_EQ(severity(SF_FORMAT_WAV | SF_FORMAT_ULAW), "caution");
  EXPECT_EQ(severity(SF_FORMAT_OGG | SF_FORMAT_OPUS), "note");
  EXPECT_EQ(severity(SF_FORMAT_WAV | SF_FORMAT_PCM_16), "none");
}

}  // namespace
}  // namespace ringfall::audio
