// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/recordings_plan.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "base/failure.h"
#include "support/test_folder.h"

namespace ringfall::compare {
namespace {

std::string told(const SessionPlan& plan) {
  std::string text;
  for (const auto& block : plan.blocks) text += block.setup + ":" + block.file + " ";
  return text;
}

TEST(RecordingsPlan, NamesBecomeSetUps) {
  EXPECT_EQ(told(plan_of_recordings({"before.m4a", "day/after.m4a"})), "before:before.m4a after:day/after.m4a ");
  EXPECT_EQ(told(plan_of_recordings({"a/shots.wav", "b/shots.wav"})), "a:a/shots.wav b:b/shots.wav ") << "named by their folders";
}

TEST(RecordingsPlan, NumbersAtTheEndAreLeftOffWhereNamesWouldClash) {
  EXPECT_EQ(told(plan_of_recordings({"bare 1.wav", "cuff-2.wav", "cuff-3.wav", "bare 4.wav", "wool9.wav"})),
            "bare:bare 1.wav cuff:cuff-2.wav cuff:cuff-3.wav bare:bare 4.wav wool9:wool9.wav ");
  // With nothing else to tell them apart the numbers are the names.
  EXPECT_EQ(told(plan_of_recordings({"take1.wav", "take2.wav"})), "take1:take1.wav take2:take2.wav ");
  EXPECT_EQ(told(plan_of_recordings({"1.wav", "2.wav"})), "1:1.wav 2:2.wav ");
}

TEST(RecordingsPlan, SeveralFilesASetUp) {
  const auto plan = plan_of_recordings({"bare=one.wav,four.wav", "cuff=two.wav"});
  EXPECT_EQ(told(plan), "bare:one.wav bare:four.wav cuff:two.wav ");
  EXPECT_EQ(plan.blocks[2].block, 3) << "in the order written";
}

TEST(RecordingsPlan, WhatIsNoComparisonIsRefused) {
  EXPECT_THROW(plan_of_recordings({"bare=a.wav,b.wav"}), RequestFailure);
  EXPECT_THROW(plan_of_recordings({"alone.wav"}), RequestFailure);
  EXPECT_THROW(plan_of_recordings({"bare=", "cuff=a.wav"}), RequestFailure);
  EXPECT_THROW(plan_of_recordings({"=a.wav", "cuff=b.wav"}), RequestFailure);
  EXPECT_FALSE(names_recordings("season.ringfall"));
  EXPECT_FALSE(names_recordings("setups.csv"));
  EXPECT_TRUE(names_recordings("After.M4A"));
}

TEST(RecordingsPlan, AFolderOfSubFoldersHasTheBareOneFirst) {
  const TestFolder folder;
  for (const char* file : {"after/2.wav", "after/1.wav", "Before/one.m4a", "notes/read.txt"}) {
    std::filesystem::create_directories(std::filesystem::path(folder.path(file)).parent_path());
    std::ofstream(folder.path(file)) << "x";
  }
  const auto plan = session_plan_of(folder.str());
  EXPECT_EQ(told(plan), "Before:Before/one.m4a after:after/1.wav after:after/2.wav ");
  EXPECT_EQ(plan.path_of(plan.blocks[0]), folder.path("Before/one.m4a"));
  // A table says it better.
  std::ofstream(folder.path("setups.csv")) << "file,setup\nx.wav,a\ny.wav,b\n";
  EXPECT_EQ(told(session_plan_of(folder.str())), "a:x.wav b:y.wav ");
}

TEST(RecordingsPlan, AFolderWithNeitherIsRefused) {
  const TestFolder folder;
  EXPECT_THROW(session_plan_of(folder.str()), FileFailure);
  EXPECT_THROW(session_plan_of(folder.path("gone")), FileFailure);
}

TEST(RecordingsPlan, TheTableSaysWhatSetUpsAdd) {
  const TestFolder folder;
  const auto write = [&](const char* text) { std::ofstream(folder.path("setups.csv")) << text; };
  write("file,setup,block,added_mass_g,note\na.wav,bare,1,,\nb.wav,clay,2,60,the same mass\nc.wav,cuff,3,60,\nd.wav,cuff,4,,felt\n");
  const auto facts = setup_facts_of(folder.str());
  ASSERT_EQ(facts.size(), 3U);
  EXPECT_FALSE(facts[0].added_mass_kg);
  EXPECT_DOUBLE_EQ(facts[1].added_mass_kg.value(), 0.060);
  EXPECT_EQ(facts[1].changed, "the same mass");
  EXPECT_DOUBLE_EQ(facts[2].added_mass_kg.value(), 0.060);
  EXPECT_EQ(facts[2].changed, "felt");
  write("file,setup,added_mass_g\na.wav,cuff,60\nb.wav,cuff,70\n");
  EXPECT_THROW(setup_facts_of(folder.str()), FileFailure) << "two masses are two set-ups";
  write("file,setup,added_mass_g\na.wav,cuff,90000\n");
  EXPECT_THROW(setup_facts_of(folder.str()), FileFailure);
}

}  // namespace
}  // namespace ringfall::compare
