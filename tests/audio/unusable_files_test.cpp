// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <sndfile.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>

#include "audio/test_sounds.h"

namespace ringfall::audio {
namespace {

// Each message must name the file and say what is wrong.
void expect_refused(const std::string& path, const std::string& words) {
  const std::string message = failure_of([&] { open_sound(path); });
  EXPECT_NE(message.find(path), std::string::npos) << message;
  EXPECT_NE(message.find(words), std::string::npos) << message;
  EXPECT_EQ(failure_of([&] { loudest_channel(path); }), message);
}

TEST(UnusableFile, IsRefusedInWords) {
  const TestFolder folder;
  expect_refused(folder.path("gone.wav"), "no such file");
  expect_refused(folder.path("gone/gone.wav"), "no such file");
  expect_refused(folder.str(), "is a folder");
  write_bytes(folder.path("empty.wav"), "");
  expect_refused(folder.path("empty.wav"), "is empty");
  write_bytes(folder.path("notes.wav"), "Bare bow, 10 shots, no damper.\n");
  expect_refused(folder.path("notes.wav"), "not a sound file");
  write_bytes(folder.path("one.wav"), "R");
  expect_refused(folder.path("one.wav"), "not a sound file");
  write_bytes(folder.path("picture.png"), "\x89PNG\r\n\x1A\n and so on and so on");
  expect_refused(folder.path("picture.png"), "not a sound file");
  write_bytes(folder.path("zeros.wav"), std::string(100000, '\0'));
  expect_refused(folder.path("zeros.wav"), "not a sound file");
  ASSERT_EQ(::mkfifo(folder.path("pipe.wav").c_str(), 0600), 0);
  expect_refused(folder.path("pipe.wav"), "pipe or device");
  expect_refused("/dev/null", "pipe or device");
  write_by_sndfile(folder.path("none.wav"), SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, {});
  expect_refused(folder.path("none.wav"), "holds no sound");
  EXPECT_NE(failure_of([] { open_sound(""); }), "");
  EXPECT_NE(failure_of([] { open_sound(std::string("a\0b", 3)); }), "");
}

TEST(UnusableFile, WithoutPermissionIsRefused) {
  if (::geteuid() == 0) GTEST_SKIP() << "root may read everything";
  const TestFolder folder;
  write_bytes(folder.path("mine.wav"), "RIFF");
  ASSERT_EQ(::chmod(folder.path("mine.wav").c_str(), 0), 0);
  expect_refused(folder.path("mine.wav"), "permissions");
}

TEST(UnusableFile, BrokenWavIsRefusedWithAndWithoutFfmpeg) {
  const TestFolder folder;
  const std::string path = folder.path("bad.wav");
  write_bytes(path, std::string("RIFF\x10\0\0\0WAVEjunk\x04\0\0\0abcd", 24));
  EXPECT_NE(failure_of([&] { open_sound(path); }), "");
  const std::string message = failure_of([&] { open_sound(path, {"/nowhere", 1.0}); });
  EXPECT_NE(message.find("'data' chunk"), std::string::npos) << message;
}

}  // namespace
}  // namespace ringfall::audio
