// SPDX-License-Identifier: GPL-3.0-or-later
// Each limit of docs/measures/comparison.md#confounders just this side and that; the limits are common practice, no source.
#include "compare/confounders.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <utility>

#include "compare/made_up_session.h"

namespace ringfall::compare {
namespace {

/// A B B A of five shots: nothing to say against it.
struct FairSession {
  Session session;

  FairSession() {
    for (const auto& [setup, number] : {std::pair{"a", 1}, std::pair{"b", 2}, std::pair{"b", 3}, std::pair{"a", 4}}) {
      session.blocks.push_back(exposure_block(setup, number, {1, 2, 3, 4, 5}));
      for (auto& entry : session.blocks.back().shots) {
        entry.shot.levels.floor_db = -80.0;
        entry.shot.impact_lag_s = 0.36;
      }
    }
  }
  bool says(const char* code) const { return has_finding(confounders(session, "a"), code); }
  std::string sentence(const char* code) const {
    for (const Finding& finding : confounders(session, "a")) {
      if (finding.code == code) return finding.sentence;
    }
    return {};
  }
  BlockFacts& facts(std::size_t block) { return session.blocks[block].facts; }
  void set_floor(std::size_t block, double floor_db) {
    for (auto& entry : session.blocks[block].shots) entry.shot.levels.floor_db = floor_db;
  }
  void set_lag(std::size_t block, double lag_s) {
    for (auto& entry : session.blocks[block].shots) entry.shot.impact_lag_s = lag_s;
  }
  void set_facts(std::optional<double> base_kg, std::optional<double> own_kg) {
    session.setup_facts = {{"a", "", base_kg, std::nullopt}, {"b", "", own_kg, std::nullopt}};
  }
};

TEST(Confounders, AFairSessionHasNone) { EXPECT_TRUE(confounders(FairSession().session, "a").empty()); }

// A gain step moves the floor: where it does not scatter 0.8 dB are said (3 dB were the limit, and steps of 1 to 3 dB went unnamed).
TEST(Confounders, FloorBeyondWhatItScattersBy) {
  FairSession fair;
  for (const auto& [floor_db, said] : {std::pair{-79.3, false}, std::pair{-79.1, true}, std::pair{-80.7, false}, std::pair{-80.9, true}}) {
    fair.set_floor(2, floor_db);
    EXPECT_EQ(fair.says("floor_changed"), said) << floor_db;
  }
}

// Shots' floors 2 dB up and down: 3 dB are said whatever they scatter by, less is not.
TEST(Confounders, FloorBeyondThreeDecibelsWhereItScatters) {
  FairSession fair;
  const auto scatter = [&fair](std::size_t block, double floor_db) {
    fair.set_floor(block, floor_db);
    fair.session.blocks[block].shots.front().shot.levels.floor_db = floor_db + 2.0;
    fair.session.blocks[block].shots.back().shot.levels.floor_db = floor_db - 2.0;
  };
  for (std::size_t block = 0; block < 4; ++block) scatter(block, -80.0);
  for (const auto& [floor_db, said] : {std::pair{-77.1, false}, std::pair{-76.9, true}, std::pair{-82.9, false}, std::pair{-83.1, true}}) {
    scatter(2, floor_db);
    EXPECT_EQ(fair.says("floor_changed"), said) << floor_db;
  }
}

TEST(Confounders, LossyBesideLosslessIsNamed) {
  FairSession fair;
  for (const char* file : {"a.flac", "A.WAV"}) {
    fair.session.blocks[1].file = file;
    EXPECT_FALSE(fair.says("format_changed")) << file;
  }
  fair.session.blocks[1].file = "b.m4a";
  EXPECT_TRUE(fair.says("format_changed"));
}

TEST(Confounders, ACautionOnOneSetUpOnly) {
  FairSession fair;
  const Finding cut{"low_cut", Severity::caution, {Quantity::hum}, "The low end is missing."};
  for (auto& block : fair.session.blocks) block.findings = {cut};
  EXPECT_FALSE(fair.says("finding_on_one_setup")) << "on both: it is no difference";
  for (auto& block : fair.session.blocks) {
    if (block.setup == "a") block.findings.clear();
  }
  EXPECT_TRUE(fair.says("finding_on_one_setup"));
}

TEST(Confounders, SettingsOfTheBowThatDiffer) {
  FairSession fair;
  logbook::SetUp base;
  logbook::SetUp own;
  base.name = "a";
  own.name = "b";
  base.fittings.brace_height_m = 0.210;
  own.fittings.brace_height_m = 0.211;
  fair.session.logbook.setups = {base, own};
  EXPECT_FALSE(fair.says("setting_differs"));
  own.fittings.brace_height_m = 0.220;
  fair.session.logbook.setups = {base, own};
  EXPECT_TRUE(fair.says("setting_differs"));
  own.fittings.string = "new";
  fair.session.logbook.setups = {base, own};
  EXPECT_TRUE(fair.says("several_settings_differ"));
}

TEST(Confounders, LagBeyondThreePerCent) {
  FairSession fair;
  for (const auto& [lag_s, said] : {std::pair{0.370, false}, std::pair{0.372, true}, std::pair{0.350, false}, std::pair{0.348, true}}) {
    fair.set_lag(2, lag_s);
    EXPECT_EQ(fair.says("impact_lag_changed"), said) << lag_s;
  }
}

TEST(Confounders, PlaceChainAndWarmth) {
  FairSession fair;
  fair.facts(0).distance_m = 18.0;
  for (const auto& [distance_m, said] : {std::pair{18.29, false}, std::pair{18.31, true}, std::pair{17.69, true}}) {
    fair.facts(3).distance_m = distance_m;
    EXPECT_EQ(fair.says("distance_changed"), said) << distance_m;
  }
  fair.facts(0).temperature_c = 15.0;
  for (const auto& [warm_c, said] : {std::pair{20.0, false}, std::pair{20.1, true}, std::pair{9.9, true}}) {
    fair.facts(2).temperature_c = warm_c;
    EXPECT_EQ(fair.says("temperature_differs"), said) << warm_c;
  }
  EXPECT_FALSE(fair.says("chain_changed"));
  fair.facts(1).chain = "another recorder";
  EXPECT_TRUE(fair.says("chain_changed"));
}

// Another evening has another floor, lag and place by rights: a block is held against the first of its own session.
TEST(Confounders, AnotherSessionIsHeldAgainstItsOwnFirstBlock) {
  FairSession fair;
  for (const std::size_t block : {2U, 3U}) {
    fair.session.blocks[block].session = 2;
    fair.set_floor(block, -60.0);
    fair.set_lag(block, 0.5);
    fair.facts(block).chain = "another recorder";
    fair.session.blocks[block].sample_rate_hz = 44100.0;
  }
  for (const char* code : {"floor_changed", "impact_lag_changed", "chain_changed", "sample_rate_changed"}) EXPECT_FALSE(fair.says(code)) << code;
  fair.set_floor(3, -50.0);
  fair.session.blocks[3].sample_rate_hz = 48000.0;
  EXPECT_TRUE(fair.says("floor_changed"));
  EXPECT_TRUE(fair.says("sample_rate_changed"));
}

// Two blocks of two make four shots, of three six.
TEST(Confounders, UnderFiveShotsAreFew) {
  FairSession fair;
  fair.session.blocks[1].shots.resize(2);
  fair.session.blocks[2].shots.resize(2);
  EXPECT_NE(fair.sentence("few_shots").find("'b' has 4 shots only"), std::string::npos) << fair.sentence("few_shots");
  fair.session.blocks[2] = exposure_block("b", 3, {1, 2, 3});
  EXPECT_FALSE(fair.says("few_shots"));
}

// 100 g on 2 kg: 20 lg(1 + 0.1 / 2) = 0.42 dB by hand.
TEST(Confounders, AddedMassOnEitherSide) {
  FairSession fair;
  fair.set_facts(std::nullopt, 0.0049);
  EXPECT_FALSE(fair.says("added_mass_differs"));
  fair.set_facts(std::nullopt, 0.0051);
  EXPECT_TRUE(fair.says("added_mass_differs"));
  fair.set_facts(0.0, 0.1);
  EXPECT_TRUE(fair.sentence("added_mass_differs").starts_with("'b' weighs 100 g more than 'a': mass alone quietens a bow a little (100 g on 2 kg "
                                                              "about 0.4 dB)"))
      << fair.sentence("added_mass_differs");
  fair.set_facts(0.1, std::nullopt);
  EXPECT_TRUE(fair.sentence("added_mass_differs").starts_with("'b' weighs 100 g less than 'a' (no added mass is stated for it)"))
      << fair.sentence("added_mass_differs");
  fair.session.setup_facts.pop_back();
  EXPECT_TRUE(fair.says("added_mass_differs"));
  fair.set_facts(0.1, 0.1);
  EXPECT_FALSE(fair.says("added_mass_differs"));
}

TEST(Confounders, ArrowsATenthOfAGramApart) {
  FairSession fair;
  fair.session.setup_facts = {{"a", "", std::nullopt, 0.0200}, {"b", "", std::nullopt, 0.02009}};
  EXPECT_FALSE(fair.says("arrow_differs"));
  fair.session.setup_facts[1].arrow_mass_kg = 0.02011;
  EXPECT_TRUE(fair.says("arrow_differs"));
  fair.session.setup_facts[1].arrow_mass_kg.reset();
  EXPECT_FALSE(fair.says("arrow_differs")) << "an arrow nobody stated is none to differ";
}

}  // namespace
}  // namespace ringfall::compare
