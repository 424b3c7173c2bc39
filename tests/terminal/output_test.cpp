// SPDX-License-Identifier: GPL-3.0-or-later
// What is said reaches its reader or the status says that it did not, and nothing a stranger wrote steers the terminal.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <utility>

#include "base/new_file.h"
#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

/// "/dev/full" takes nothing (Linux, full(4)).
int status_into_full_disk(const std::string& arguments) {
  const std::string command = std::string("'") + RINGFALL_PROGRAM + "' " + arguments + " >/dev/full 2>/dev/null";
  const int status = std::system(command.c_str());
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(Output, AFullDiskIsNeverDone) {
  const TestFolder folder;
  const std::string book = folder.path("a");
  ASSERT_EQ(run_program({"start", book, "--bow", "b"}).status, kDone);
  ASSERT_EQ(run_program({"add", book, fives_folder() + "/block1-bare.wav", "--setup", "bare"}).status, kDone);
  const std::string wav = "'" + fives_folder() + "/block1-bare.wav'";
  for (const std::string& command :
       {std::string("--help"), std::string("--version"), std::string("completion"), "list '" + book + "'", "list '" + book + "' --json",
        "check '" + book + "'", "hunting '" + book + "' bare --distance 18m --json", "measure " + wav + " --json", "measure " + wav + " --csv", "measure " + wav,
        "compare '" + demo_folder() + "' --csv", "compare '" + demo_folder() + "' --json"}) {
    EXPECT_EQ(status_into_full_disk(command), kUnusable) << command;
  }
}

TEST(Output, ForeignWordsSteerNothing) {
  const TestFolder folder;
  const std::string steering = "ba\x1b[31mre\x9b\xC2\x9B" "2J\xE2\x80\xAE";
  std::string table = "setup,block,shot,level (dB)\n";
  for (int block = 1; block <= 4; ++block) {
    for (int shot = 1; shot <= 3; ++shot) {
      table += (block % 2 == 1 ? steering : std::string("steel")) + "," + std::to_string(block) + "," + std::to_string(shot) + "," +
               std::to_string(60 + block % 2 + shot) + ".5\n";
    }
  }
  write_whole_file(folder.path("t.csv"), table);
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"compare", "--table", folder.path("t.csv")}, {"compare", "--table", folder.path("t.csv"), "--json"},
        {"measure", "no" + steering}, {"list", "no" + steering}, {"list", folder.path("t.csv"), "--" + steering}}) {
    const auto ran = run_program(command);
    for (const std::string& text : {ran.out, ran.error}) {
      EXPECT_EQ(text.find('\x1b'), std::string::npos) << text;
      EXPECT_EQ(text.find('\x9b'), std::string::npos) << text;
      EXPECT_EQ(text.find("\xE2\x80\xAE"), std::string::npos) << text;
    }
  }
}

TEST(Output, ARepeatedRowOfATableIsRefusedWithItsLine) {
  const TestFolder folder;
  write_whole_file(folder.path("t.csv"), "setup,block,shot,level (dB)\na,1,1,60.5\nb,2,1,61.5\na,1,1,60.5\n");
  const auto ran = run_program({"compare", "--table", folder.path("t.csv")});
  EXPECT_NE(ran.status, kDone);
  EXPECT_NE(ran.error.find("line 4"), std::string::npos) << ran.error;
}

// TMPDIR that is not there, and no descriptor to spare: neither says anything of the sounds.
TEST(Output, HealthySoundIsNotCalledDamaged) {
  const TestFolder folder;
  const std::string book = folder.path("a");
  ASSERT_EQ(run_program({"start", book, "--bow", "b"}).status, kDone);
  ASSERT_EQ(run_program({"add", book, fives_folder() + "/block1-bare.wav", "--setup", "bare"}, "TMPDIR=/nowhere").status, kDone);
  for (const char* environment : {"TMPDIR=/nowhere", "TMPDIR=/dev/full"}) {
    const auto checked = run_program({"check", book}, environment);
    EXPECT_EQ(checked.status, kDone) << checked.error;
    EXPECT_EQ(run_program({"remeasure", book}, environment).status, kDone);
  }
}

void copy_recording(const std::string& name, const std::string& to) { std::filesystem::copy_file(fives_folder() + "/" + name, to); }

TEST(Output, TheSameSoundUnderAnotherNameIsRefused) {
  const TestFolder folder;
  copy_recording("block1-bare.wav", folder.path("a1.wav"));
  copy_recording("block1-bare.wav", folder.path("a1 (1).wav"));
  copy_recording("block2-clay-ring.wav", folder.path("b1.wav"));
  write_whole_file(folder.path("setups.csv"), "file,setup,block\na1.wav,bare,1\nb1.wav,steel,2\na1 (1).wav,bare,3\n");
  const auto twice = run_program({"compare", folder.str()});
  EXPECT_EQ(twice.status, kUnusable);
  EXPECT_NE(twice.error.find("must not count twice"), std::string::npos) << twice.error;
  // A blank more makes no third set-up.
  copy_recording("block5-clay-ring.wav", folder.path("b2.wav"));
  copy_recording("block6-bare.wav", folder.path("a2.wav"));
  write_whole_file(folder.path("setups.csv"), "file,setup,block\na1.wav, bare ,1\nb1.wav,steel,2\nb2.wav,steel,3\na2.wav,bare,4\n");
  const auto once = run_program({"compare", folder.str(), "--csv"});
  EXPECT_EQ(once.error.find("twice"), std::string::npos) << once.error;
  EXPECT_EQ(once.out.find(" bare "), std::string::npos) << once.out;
}

TEST(Output, ADamagedSoundIsLeftOutOfTheComparisonAlone) {
  const TestFolder folder;
  const std::string book = folder.path("a");
  ASSERT_EQ(run_program({"start", book, "--bow", "b"}).status, kDone);
  for (const auto& [file, setup] : {std::pair{"block1-bare", "bare"}, {"block2-clay-ring", "steel"}, {"block5-clay-ring", "steel"}, {"block6-bare", "bare"}}) {
    ASSERT_EQ(run_program({"add", book, fives_folder() + "/" + file + ".wav", "--setup", setup}).status, kDone);
  }
  logbook::Database(book, logbook::Database::Access::existing).run("UPDATE shot SET clip = zeroblob(length(clip)) WHERE id = 2");
  const auto ran = run_program({"compare", book}, "COLUMNS=200");
  EXPECT_NE(ran.status, kUnusable) << ran.error;
  EXPECT_NE((ran.out + ran.error).find("its kept sound is damaged"), std::string::npos) << ran.out;
}

}  // namespace
}  // namespace ringfall::terminal
