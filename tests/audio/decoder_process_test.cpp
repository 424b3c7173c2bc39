// SPDX-License-Identifier: GPL-3.0-or-later
// What happens around the decoder: not installed, hanging, dying, stopped early. Stand-in decoders are scripts.
#include <gtest/gtest.h>
#include <signal.h>
#include <sndfile.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <iterator>

#include "audio/child_process.h"
#include "audio/ffprobe.h"
#include "audio/find_program.h"
#include "audio/test_sounds.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

std::size_t open_descriptors() {
  const std::filesystem::directory_iterator all("/proc/self/fd");
  return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

bool no_children_left() { return ::waitpid(-1, nullptr, WNOHANG) == -1 && errno == ECHILD; }

void write_script(const std::string& path, const std::string& text) {
  write_bytes(path, "#!/bin/sh\n" + text);
  ASSERT_EQ(::chmod(path.c_str(), 0755), 0);
}

/// A folder with stand-ins for both commands and something that looks like an MP4.
class StandIns : public testing::Test {
 protected:
  void SetUp() override {
    write_script(folder_.path("ffprobe"),
                 "echo '{\"streams\":[{\"codec_name\":\"aac\",\"sample_rate\":\"48000\",\"channels\":1,\"duration\":\"1.0\"}]}'\n");
    write_bytes(clip_, std::string("\0\0\0\x20" "ftypisom", 12) + std::string(64, '\0'));
  }
  void decoder(const std::string& text) { write_script(folder_.path("ffmpeg"), text); }
  OpenOptions options(double stall_limit_s = 5.0) const { return {folder_.str(), stall_limit_s}; }

  const TestFolder folder_;
  const std::string clip_ = folder_.path("clip.mp4");
};

TEST(FfmpegAbsent, SaysWhatToInstallAndTheOtherWay) {
  const TestFolder folder;
  const std::string path = folder.path("clip.m4a");
  write_bytes(path, std::string("\0\0\0\x20" "ftypM4A ", 12) + std::string(64, '\0'));
  for (const std::string folders : {"", "relative:", "/nowhere:/also/nowhere"}) {
    const std::string message = failure_of([&] { open_sound(path, {folders, 1.0}); });
    EXPECT_NE(message.find("clip.m4a"), std::string::npos) << message;
    EXPECT_NE(message.find("Install the package ffmpeg"), std::string::npos) << message;
    EXPECT_NE(message.find("WAV"), std::string::npos) << message;
  }
}

TEST_F(StandIns, SilentDecoderIsStoppedAfterTheLimit) {
  decoder("exec sleep 600\n");
  const std::string message = failure_of([&] { open_sound(clip_, options(0.2)); });
  EXPECT_NE(message.find("gave no sound"), std::string::npos) << message;
  EXPECT_TRUE(no_children_left());
}

TEST_F(StandIns, DecoderThatHangsInTheMiddleIsStoppedWhileReading) {
  decoder("head -c 4000 /dev/zero\nexec sleep 600\n");
  const auto reader = open_sound(clip_, options(0.2));
  std::vector<float> block(500);
  EXPECT_EQ(reader->read(block), 500U);
  const std::string message = failure_of([&] {
    while (reader->read(block) > 0) {
    }
  });
  EXPECT_NE(message.find("gave no sound"), std::string::npos) << message;
}

TEST_F(StandIns, TrickleIsNoStall) {
  decoder("for k in 1 2 3 4 5 6; do head -c 4000 /dev/zero; sleep 0.1; done\n");
  const auto sound = read_whole(clip_, 300, options(2.0));
  EXPECT_EQ(sound.frames(), 6000U);
  // 1.0 s were stated, 0.125 s came.
  EXPECT_TRUE(has_finding(sound.findings, "truncated"));
}

TEST_F(StandIns, ComplaintsAreBoundedAndReported) {
  // 1 MB of complaints: more than a pipe holds, so a reader that ignored them would hang.
  decoder("head -c 192000 /dev/zero\nhead -c 1000000 /dev/zero | tr '\\0' e >&2\necho >&2\n");
  const auto sound = read_whole(clip_, 4096, options());
  EXPECT_EQ(sound.frames(), 48000U);
  ASSERT_TRUE(has_finding(sound.findings, "decoder_complaint"));
  for (const Finding& finding : sound.findings) EXPECT_LT(finding.sentence.size(), 5000U);
}

TEST_F(StandIns, DecoderThatDiesIsReported) {
  decoder("head -c 192000 /dev/zero\nkill -9 $$\n");
  const auto sound = read_whole(clip_, 4096, options());
  EXPECT_EQ(sound.frames(), 48000U);
  EXPECT_TRUE(has_finding(sound.findings, "decoder_complaint"));
  decoder("echo 'cannot decode this' >&2\nexit 1\n");
  const std::string message = failure_of([&] { open_sound(clip_, options()); });
  EXPECT_NE(message.find("cannot decode this"), std::string::npos) << message;
}

// Padding of a codec's last frame is cut at the stated length; far more sound than stated is believed instead.
TEST_F(StandIns, PaddingIsTrimmedButAWrongLengthIsNotBelieved) {
  decoder("head -c 192512 /dev/zero\n");
  EXPECT_EQ(read_whole(clip_, 1000, options()).frames(), 48000U);
  EXPECT_EQ(read_whole(clip_, 48128, options()).frames(), 48000U);
  decoder("head -c 400000 /dev/zero\n");
  EXPECT_EQ(read_whole(clip_, 1000, options()).frames(), 100000U);
  decoder("head -c 191000 /dev/zero\n");
  EXPECT_EQ(read_whole(clip_, 1000, options()).frames(), 47750U);
}

TEST_F(StandIns, NothingIsLeftBehind) {
  decoder("exec cat /dev/zero\n");
  const std::size_t before = open_descriptors();
  for (int k = 0; k < 20; ++k) {
    const auto reader = open_sound(clip_, options());
    std::vector<float> block(100);
    EXPECT_EQ(reader->read(block), 100U);  // and leave in the middle of it
  }
  for (int k = 0; k < 20; ++k) EXPECT_NE(failure_of([&] { open_sound(clip_, {"/nowhere", 1.0}); }), "");
  const TestFolder folder;
  write_bytes(folder.path("bad.wav"), "RIFF\x10\0\0\0WAVEjunkjunkjunk");
  write_bytes(folder.path("text.txt"), "words");
  write_by_sndfile(folder.path("good.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, {0.1F, 0.2F});
  for (int k = 0; k < 20; ++k) {
    EXPECT_NE(failure_of([&] { open_sound(folder.path("bad.wav"), {"/nowhere", 1.0}); }), "");
    EXPECT_NE(failure_of([&] { open_sound(folder.path("text.txt")); }), "");
    open_sound(folder.path("good.wav"));
  }
  EXPECT_EQ(open_descriptors(), before);
  EXPECT_TRUE(no_children_left());
}

// The child must not inherit the sound files the process has open.
TEST_F(StandIns, ChildInheritsNothing) {
  const TestFolder folder;
  write_by_sndfile(folder.path("good.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, {0.1F, 0.2F});
  const auto open_meanwhile = open_sound(folder.path("good.wav"));
  decoder("ls -l /proc/$$/fd | grep -c -e good.wav -e clip.mp4 >&2\nhead -c 4000 /dev/zero\n");
  const auto sound = read_whole(clip_, 4096, options());
  bool seen = false;
  for (const Finding& finding : sound.findings) seen |= finding.sentence.find("says: 0)") != std::string::npos;
  EXPECT_TRUE(seen) << (sound.findings.empty() ? "" : sound.findings.back().sentence);
}

TEST(ChildProcess, GivesOutputStatusAndComplaints) {
  ChildProcess child("/bin/sh", {"-c", "printf 'one two'; printf 'oh' >&2; read x || printf 'no input'; exit 3"});
  std::string output;
  std::array<std::byte, 5> block{};
  while (const std::size_t got = child.read(block, 10.0).value_or(0)) {
    for (std::size_t k = 0; k < got; ++k) output.push_back(static_cast<char>(block[k]));
  }
  EXPECT_EQ(output, "one twono input");
  EXPECT_EQ(child.wait(10.0), 3);
  EXPECT_EQ(child.complaints(), "oh");
  EXPECT_THROW(ChildProcess("/nowhere/at/all", {}), FileFailure);
}

// It must die of a closed pipe even where this process ignores that signal.
TEST(ChildProcess, GetsSignalsAsUsual) {
  const auto handler = ::signal(SIGPIPE, SIG_IGN);
  ChildProcess child("/bin/sh", {"-c", "kill -PIPE $$; printf alive"});
  std::array<std::byte, 5> block{};
  EXPECT_EQ(child.read(block, 10.0), 0U);
  EXPECT_EQ(child.wait(10.0), std::nullopt);
  ::signal(SIGPIPE, handler);
}

TEST(ChildProcess, ThatClosesItsOutputButStaysIsKilled) {
  ChildProcess child("/bin/sh", {"-c", "exec >&- 2>&-; exec sleep 600"});
  std::array<std::byte, 5> block{};
  EXPECT_EQ(child.read(block, 10.0), 0U);
  EXPECT_EQ(child.wait(0.2), std::nullopt);
  EXPECT_TRUE(no_children_left());
}

TEST(ParseProbe, TakesWhatIsThereAndRefusesTheRest) {
  const auto track = parse_probe(R"({"streams":[{"codec_name":"pcm_s24le","sample_rate":"96000","channels":2,"bits_per_sample":24,
                                     "tags":{"DURATION":"00:01:02.500000000"}}]})");
  ASSERT_TRUE(track.has_value());
  EXPECT_EQ(track->codec.name, "24-bit PCM");
  EXPECT_EQ(track->sample_rate_hz, 96000.0);
  EXPECT_EQ(track->channels, 2);
  EXPECT_EQ(track->duration_s, 62.5);
  EXPECT_FALSE(parse_probe(R"({"streams":[{"codec_name":"aac","sample_rate":"48000","channels":1,"duration":"N/A"}]})")->duration_s);
  for (const char* bad : {"", "{", "[]", "{}", R"({"streams":[]})", R"({"streams":[1]})", R"({"streams":{"a":1}})",
                          R"({"streams":[{"codec_name":1,"sample_rate":"48000","channels":1}]})",
                          R"({"streams":[{"codec_name":"aac","sample_rate":"0","channels":1}]})",
                          R"({"streams":[{"codec_name":"aac","sample_rate":"48000","channels":1e9}]})", "{\"streams\":[\xFF]}"}) {
    EXPECT_FALSE(parse_probe(bad).has_value()) << bad;
  }
}

TEST(FindProgram, LooksOnlyInAbsoluteFoldersForExecutableFiles) {
  const TestFolder folder;
  write_bytes(folder.path("plain"), "x");
  write_script(folder.path("tool"), "exit 0\n");
  std::filesystem::create_directory(folder.path("dir"));
  EXPECT_EQ(find_program("tool", "/nowhere:" + folder.str()), folder.path("tool"));
  EXPECT_EQ(find_program("plain", folder.str()), std::nullopt);
  EXPECT_EQ(find_program("dir", folder.str()), std::nullopt);
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder.str());
  EXPECT_EQ(find_program("tool", ".::"), std::nullopt);
  std::filesystem::current_path(before);
}

}  // namespace
}  // namespace ringfall::audio
