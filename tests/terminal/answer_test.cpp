// SPDX-License-Identifier: GPL-3.0-or-later
// The answer as people get it: from the demo, whose truth is known, and from recordings without a table.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "intake/demo_evening.h"
#include "terminal/compared.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

namespace fs = std::filesystem;

std::size_t widest(const std::string& text) {
  std::istringstream lines(text);
  std::size_t width = 0;
  for (std::string line; std::getline(lines, line);) width = std::max(width, line.size());
  return width;
}

const Compared& demo_compared() {
  static const Compared compared = [] {
    CompareRequest request;
    request.source = demo_folder();
    return compare_source(request);
  }();
  return compared;
}

/// What is claimed is true: the right way, and the interval holds the truth.
void expect_true(const compare::Statement& said, double truth) {
  ASSERT_TRUE(said.interval) << said.number;
  EXPECT_TRUE(said.interval->low <= truth && truth <= said.interval->high)
      << said.number << " is " << truth << ", said " << said.interval->low << " to " << said.interval->high;
  if (said.change == compare::Change::less) { EXPECT_LT(truth, 0.0) << said.number; }
  if (said.change == compare::Change::more) { EXPECT_GT(truth, 0.0) << said.number; }
}

// intake::demo_truths() are measured by intake.Demo.* without the comparison.
TEST(CompareOutput, TheDemosVerdictsAreItsTruth) {
  const auto& comparison = demo_compared().comparison;
  const auto& truths = intake::demo_truths();
  const auto truth_of = [&](const std::string& setup) { return *std::ranges::find(truths, setup, &intake::DemoTruth::setup); };
  ASSERT_EQ(comparison.answers.size(), 3U) << "two against the baseline, the cuff against the clay of the same mass";
  for (const auto& answer : comparison.answers) {
    const auto own = truth_of(answer.setup);
    const auto other = truth_of(answer.against);
    expect_true(answer.loudness, own.quieter_db - other.quieter_db);
    expect_true(answer.hum, own.hum - other.hum);
    expect_true(answer.ping, own.ping - other.ping);
    // Each set-up's story.
    const bool cuff = answer.setup == "felt cuff";
    EXPECT_EQ(answer.against_control, answer.against == "clay ring");
    EXPECT_EQ(answer.hum.change, cuff ? compare::Change::less : compare::Change::same) << answer.setup << " against " << answer.against;
    EXPECT_EQ(answer.ping.change, cuff ? compare::Change::more : compare::Change::same) << answer.setup;
    EXPECT_NE(answer.loudness.change, compare::Change::less) << answer.setup << ": the clay only seems to be quieter";
  }
}

TEST(CompareOutput, TheAnswerIsAScreenAndStaysOnIt) {
  const auto ran = run_program({"compare", demo_folder()}, "NO_COLOR=1 COLUMNS=80");
  EXPECT_EQ(ran.status, kDone) << ran.error;
  EXPECT_EQ(ran.out.rfind("Which is quieter and deader?", 0), 0U) << ran.out;
  EXPECT_LE(std::ranges::count(ran.out, '\n'), 45) << ran.out;
  EXPECT_LE(widest(ran.out), 80U) << ran.out;
  EXPECT_NE(ran.out.find("Hum: less with 'felt cuff'."), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("Against the same mass, 'clay ring':"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("felt cuff: less hum was said and measured: they agree."), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("felt cuff: less ping was said, but more ping measured: they disagree."), std::string::npos) << ran.out;
  for (const char* term : {"Holm", "tau", "Spearman", "acum"}) EXPECT_EQ(ran.out.find(term), std::string::npos) << term;
  EXPECT_LE(widest(run_program({"compare", demo_folder()}, "NO_COLOR=1 COLUMNS=50").out), 50U);
}

TEST(CompareOutput, AllOfItStaysOnTheScreenToo) {
  const auto ran = run_program({"compare", demo_folder(), "--all"}, "NO_COLOR=1 COLUMNS=80");
  EXPECT_LE(widest(ran.out), 80U) << ran.out;
  for (const char* term : {"tau-b", "sharpness", "95 % interval", "Words against numbers"}) EXPECT_NE(ran.out.find(term), std::string::npos) << term;
}

TEST(CompareOutput, TwoRecordingsAreComparedWithoutATable) {
  const auto ran = run_program({"compare", fives_folder() + "/block1-bare.wav", fives_folder() + "/block3-felt-cuff.wav"}, "NO_COLOR=1");
  EXPECT_EQ(ran.status, kDone) << ran.error;
  EXPECT_NE(ran.out.find("against 'block1-bare'"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("block3-felt-cuff: "), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("once more in the reverse order"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("Much less"), std::string::npos) << "one block each claims nothing\n" << ran.out;
  EXPECT_EQ(run_program({"compare", fives_folder() + "/block1-bare.wav"}).status, kBadCommand);
}

TEST(CompareOutput, SeveralRecordingsASetUpAndFoldersOfThem) {
  const auto file = [](const char* name) { return fives_folder() + "/" + name; };
  const auto named = run_program({"compare", "bare=" + file("block1-bare.wav") + "," + file("block6-bare.wav"),
                                  "cuff=" + file("block3-felt-cuff.wav") + "," + file("block4-felt-cuff.wav")}, "NO_COLOR=1");
  EXPECT_EQ(named.status, kDone) << named.error;
  EXPECT_NE(named.out.find("Hum: less with 'cuff'."), std::string::npos) << named.out;
  const TestFolder folder;
  const auto put = [&](const char* from, const char* setup, const char* as) {
    fs::create_directories(folder.path(setup));
    fs::copy_file(file(from), fs::path(folder.path(setup)) / as);
  };
  put("block3-felt-cuff.wav", "added", "1.wav");
  put("block4-felt-cuff.wav", "added", "2.wav");
  put("block1-bare.wav", "bare", "1.wav");
  put("block6-bare.wav", "bare", "2.wav");
  const auto foldered = run_program({"compare", folder.str()}, "NO_COLOR=1");
  EXPECT_EQ(foldered.status, kDone) << foldered.error;
  EXPECT_NE(foldered.out.find("against 'bare'"), std::string::npos) << foldered.out;
  EXPECT_NE(foldered.out.find("Hum: less with 'added'."), std::string::npos) << foldered.out;

  // The same sound never counts twice, and that is said.
  put("block1-bare.wav", "bare", "copy.wav");
  const auto twice = run_program({"compare", folder.str()}, "NO_COLOR=1");
  EXPECT_EQ(twice.status, kUnusable);
  EXPECT_NE(twice.error.find("bare/copy.wav: shot 1 of it is the very sound of shot 1 of bare/1.wav"), std::string::npos) << twice.error;
  const auto against_itself = run_program({"compare", "a=" + file("block1-bare.wav"), "b=" + file("block1-bare.wav")});
  EXPECT_EQ(against_itself.status, kUnusable) << against_itself.error;
}

TEST(DemoOutput, SaysWhatIsTrue) {
  const TestFolder folder;
  const auto ran = run_program({"demo", folder.path("d")});
  EXPECT_NE(ran.out.find("What is true of it"), std::string::npos) << ran.out;
  EXPECT_NE(file_text(folder.path("d/README.txt")).find(intake::demo_truth_text()), std::string::npos);
  EXPECT_NE(file_text(folder.path("d/setups.csv")).find("block2-clay-ring.wav,clay ring,2,60,"), std::string::npos);
}

}  // namespace
}  // namespace ringfall::terminal
