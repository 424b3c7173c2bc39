// SPDX-License-Identifier: GPL-3.0-or-later
// Phone and video formats, made with the ffmpeg command. Expected values: what was put in.
#include <gtest/gtest.h>
#include <sndfile.h>

#include <filesystem>
#include <fstream>

#include "audio/test_sounds.h"

namespace ringfall::audio {
namespace {

struct Phone {
  const char* name;                  ///< of the file
  std::vector<std::string> encode;   ///< ffmpeg's words between the input and the output file
  const char* description;
  bool lossy;
  bool trimmed;                      ///< the container states the length, so the decoded one is exact
};
const Phone kPhones[] = {
    {"aac.m4a", {"-c:a", "aac", "-b:a", "160k"}, "M4A, AAC", true, true},
    {"alac.m4a", {"-c:a", "alac"}, "M4A, 16-bit ALAC", false, true},
    {"sound.mp4", {"-c:a", "aac", "-b:a", "160k"}, "MP4, AAC", true, true},
    {"aac.3gp", {"-c:a", "aac", "-b:a", "160k"}, "3GP, AAC", true, true},
    {"pcm.mov", {"-c:a", "pcm_s16le"}, "MOV, 16-bit PCM", false, true},
    {"opus.webm", {"-c:a", "libopus", "-b:a", "160k"}, "Matroska or WebM, Opus", true, false},
    {"flac.mkv", {"-c:a", "flac"}, "Matroska or WebM, 16-bit lossless", false, false},
    {"adts.aac", {"-c:a", "aac", "-b:a", "160k"}, "AAC, AAC", true, false},
};

std::vector<std::string> ffmpeg_words(const std::string& in, const std::vector<std::string>& encode, const std::string& out) {
  std::vector<std::string> words{"-nostdin", "-v", "error", "-y", "-i", "file:" + in};
  words.insert(words.end(), encode.begin(), encode.end());
  words.push_back("file:" + out);
  return words;
}

bool ffmpeg_here() { return run("ffmpeg", {"-version"}) && run("ffprobe", {"-version"}); }

class PhoneFormats : public testing::TestWithParam<Phone> {};

TEST_P(PhoneFormats, GiveTheSoundAtTheRightTime) {
  if (!ffmpeg_here()) GTEST_SKIP() << "ffmpeg is not installed";
  const Phone& phone = GetParam();
  const TestFolder folder;
  write_by_sndfile(folder.path("in.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 2, sine_with_impulse(48000.0, 48000, 24000, 2));
  const std::string path = folder.path(phone.name);
  ASSERT_TRUE(run("ffmpeg", ffmpeg_words(folder.path("in.wav"), phone.encode, path)));
  const auto sound = read_whole(path, 1013);
  EXPECT_EQ(sound.format.description, phone.description);
  EXPECT_EQ(sound.format.sample_rate_hz, 48000.0);
  EXPECT_EQ(sound.format.channels, 2);
  EXPECT_EQ(sound.format.lossy, phone.lossy);
  EXPECT_EQ(sound.format.integer_samples, !phone.lossy);
  EXPECT_EQ(sound.format.bits, phone.lossy ? 0 : 16);
  EXPECT_EQ(has_finding(sound.findings, "lossy_codec"), phone.lossy);
  EXPECT_FALSE(has_finding(sound.findings, "truncated"));
  EXPECT_FALSE(has_finding(sound.findings, "decoder_complaint"));
  if (phone.trimmed) {
    EXPECT_EQ(sound.frames(), 48000U);
    EXPECT_EQ(sound.format.frames, 48000);
  }
  // 1 ms = 48 samples. A bare AAC stream has nowhere to note its encoder's delay of 1024 samples.
  const double delay = std::string(phone.name) == "adts.aac" ? 1024.0 : 0.0;
  EXPECT_NEAR(static_cast<double>(loudest_frame(sound)), 24000.0 + delay, phone.lossy ? 48.0 : 0.0);
  // The sine keeps its level of 0.1 (rms 0.0707) within 0.5 dB.
  double energy = 0.0;
  for (std::size_t k = 5000; k < 15000; ++k) {
    const auto x = static_cast<double>(sound.samples[2 * k]);
    energy += x * x / 10000.0;
  }
  EXPECT_NEAR(energy, 0.005, 0.0006);
}

INSTANTIATE_TEST_SUITE_P(Made, PhoneFormats, testing::ValuesIn(kPhones), [](const auto& one) {
  std::string name = one.param.name;
  name[name.find('.')] = '_';
  return name;
});

TEST(PhoneVideo, TheSoundOfAVideoIsRead) {
  if (!ffmpeg_here()) GTEST_SKIP() << "ffmpeg is not installed";
  const TestFolder folder;
  write_by_sndfile(folder.path("in.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 1, sine_with_impulse(44100.0, 44100, 20000));
  const std::string path = folder.path("video.mp4");
  // mpeg4 is built into every ffmpeg, unlike H.264.
  ASSERT_TRUE(run("ffmpeg", {"-nostdin", "-v", "error", "-f", "lavfi", "-i", "testsrc=size=64x48:rate=25:duration=2", "-i",
                             "file:" + folder.path("in.wav"), "-c:v", "mpeg4", "-c:a", "aac", "-b:a", "128k", "file:" + path}));
  const auto sound = read_whole(path);
  EXPECT_EQ(sound.format.sample_rate_hz, 44100.0);
  EXPECT_EQ(sound.frames(), 44100U);
  EXPECT_NEAR(static_cast<double>(loudest_frame(sound)), 20000.0, 44.0);
  const std::string silent = folder.path("silent.mp4");
  ASSERT_TRUE(run("ffmpeg", {"-nostdin", "-v", "error", "-f", "lavfi", "-i", "testsrc=size=64x48:rate=25:duration=1", "-c:v", "mpeg4",
                             "file:" + silent}));
  const std::string message = failure_of([&] { open_sound(silent); });
  EXPECT_NE(message.find("has no audio track"), std::string::npos) << message;
}

TEST(PhoneAmr, SpeechCodecIsACaution) {
  const TestFolder folder;
  write_by_sndfile(folder.path("in.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1, sine_with_impulse(8000.0, 16000, 8000));
  const std::string path = folder.path("speech.amr");
  if (!ffmpeg_here() || !run("sox", {folder.path("in.wav"), "-t", "amr-nb", path})) {
    GTEST_SKIP() << "making an AMR file takes sox with its AMR format (ffmpeg has no encoder for it)";
  }
  const auto sound = read_whole(path);
  EXPECT_EQ(sound.format.description, "AMR, AMR");
  EXPECT_EQ(sound.format.sample_rate_hz, 8000.0);
  EXPECT_NEAR(static_cast<double>(sound.frames()), 16000.0, 400.0);
  ASSERT_EQ(sound.findings.size(), 1U);
  EXPECT_EQ(sound.findings[0].code, "lossy_codec");
  EXPECT_EQ(sound.findings[0].severity, Severity::caution);
}

TEST(PhoneDamage, CutFilesAreReadAsFarAsTheyGoOrRefusedInWords) {
  if (!ffmpeg_here()) GTEST_SKIP() << "ffmpeg is not installed";
  const TestFolder folder;
  write_by_sndfile(folder.path("in.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, sine_with_impulse(48000.0, 192000, 24000));
  const std::string path = folder.path("cut.m4a");
  // The index in front, as after an interrupted download.
  ASSERT_TRUE(run("ffmpeg", ffmpeg_words(folder.path("in.wav"), {"-c:a", "aac", "-movflags", "+faststart"}, path)));
  std::string bytes = file_bytes(path);
  write_bytes(path, bytes.substr(0, bytes.size() * 6 / 10));
  const auto sound = read_whole(path);
  EXPECT_GT(sound.frames(), 48000U);
  EXPECT_LT(sound.frames(), 150000U);
  EXPECT_NEAR(static_cast<double>(loudest_frame(sound)), 24000.0, 48.0);
  ASSERT_TRUE(has_finding(sound.findings, "truncated"));
  for (const Finding& finding : sound.findings) {
    if (finding.code == "truncated") {
      EXPECT_NE(finding.sentence.find("states 4.00 s"), std::string::npos) << finding.sentence;
    }
  }
  // The index at the end, and lost.
  ASSERT_TRUE(run("ffmpeg", ffmpeg_words(folder.path("in.wav"), {"-c:a", "aac"}, path)));
  bytes = file_bytes(path);
  write_bytes(path, bytes.substr(0, bytes.size() / 2));
  const std::string message = failure_of([&] { open_sound(path); });
  EXPECT_NE(message.find("was never finished"), std::string::npos) << message;
  EXPECT_NE(message.find("cut.m4a"), std::string::npos) << message;
}

TEST(PhoneNames, OddFileNamesWork) {
  if (!ffmpeg_here()) GTEST_SKIP() << "ffmpeg is not installed";
  const TestFolder folder;
  write_by_sndfile(folder.path("in.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, sine_with_impulse(48000.0, 9600, 2400));
  ASSERT_TRUE(run("ffmpeg", ffmpeg_words(folder.path("in.wav"), {"-c:a", "alac"}, folder.path("plain.m4a"))));
  for (const char* name : {"-i leading dash.m4a", "quote's \"both\".m4a", "new\nline.m4a", "$(touch x);`y`&|<>*.m4a", "http:colon.m4a",
                           "percent%03d%s.m4a", "\xC3\xA4\xE5\xBC\x93.m4a", "\xFF\xFE not UTF-8.m4a", "pipe:0"}) {
    std::filesystem::copy_file(folder.path("plain.m4a"), folder.path(name));
    EXPECT_EQ(read_whole(folder.path(name)).frames(), 9600U) << name;
    std::filesystem::copy_file(folder.path("in.wav"), folder.path(std::string(name) + ".wav"));
    EXPECT_EQ(read_whole(folder.path(std::string(name) + ".wav")).frames(), 9600U) << name;
  }
  // Names that begin like an option or a protocol, and no folder before them.
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder.str());
  EXPECT_EQ(failure_of([] { read_whole("-i leading dash.m4a"); }), "");
  EXPECT_EQ(failure_of([] { read_whole("http:colon.m4a"); }), "");
  std::filesystem::current_path(before);
}

// A playlist must not make the decoder open what it names.
TEST(PhoneNames, PlaylistsAreNotFollowed) {
  const TestFolder folder;
  write_by_sndfile(folder.path("in.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, sine_with_impulse(48000.0, 9600, 2400));
  write_bytes(folder.path("list.m4a"), "ffconcat version 1.0\nfile in.wav\n");
  write_bytes(folder.path("list.mp4"), "#EXTM3U\n#EXTINF:1,\nin.wav\n");
  for (const char* name : {"list.m4a", "list.mp4"}) {
    const std::string message = failure_of([&] { open_sound(folder.path(name)); });
    EXPECT_NE(message.find("not a sound file"), std::string::npos) << message;
  }
}

}  // namespace
}  // namespace ringfall::audio
