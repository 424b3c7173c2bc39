// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/logbook_session.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/failure.h"
#include "compare/confounders.h"
#include "logbook/earlier.h"
#include "logbook/made_up.h"

namespace ringfall::compare {
namespace {

TEST(LogbookSession, WhatChangedOnTheBowBetweenSessionsIsNamed) {
  const TestFolder folder;
  logbook::Conditions first = logbook::made_up_conditions();
  first.started_at = "2026-05-01T10:00:00Z";
  logbook::Bow bow;
  bow.name = first.bow;
  bow.fittings.brace_height_m = 0.210;
  bow.fittings.string = "16 strands";
  logbook::Logbook book = logbook::Logbook::start(folder.path("a"), first, bow);
  book.add_setup({"bare", "", false, std::nullopt});
  book.add_block({"bare", "a.wav", 48000.0, "", "", {}});
  logbook::Conditions second = first;
  second.started_at = "2026-07-01T10:00:00Z";
  book.start_session(second);
  book.add_block({"bare", "b.wav", 48000.0, "", "", {}});
  EXPECT_FALSE(has_finding(confounders(logbook_session(book), "bare"), "bow_changed_between_sessions"));
  logbook::keep_state(book, "2026-06-01T12:00:00Z", bow.name);
  bow.fittings.brace_height_m = 0.220;
  book.change_bow(bow.name, bow);
  const auto findings = confounders(logbook_session(book), "bare");
  const auto found = std::ranges::find(findings, "bow_changed_between_sessions", &Finding::code);
  ASSERT_NE(found, findings.end());
  EXPECT_NE(found->sentence.find("brace height (210 mm, 220 mm)"), std::string::npos) << found->sentence;
  EXPECT_EQ(found->sentence.find("string"), std::string::npos);
}

TEST(LogbookSession, DropsAreLeftOutAndNamed) {
  const TestFolder folder;
  auto book = logbook::made_up_logbook(folder.path("a"));
  book.add_setup({"damper", "", false, std::nullopt});
  book.add_block({"damper", "b.wav", 44100.0, "a note", "", {}});
  for (int k = 1; k <= 3; ++k) {
    const auto id = book.add_clip(1, logbook::made_up_clip(k));
    shot::Shot shot;
    shot.hum = k;
    if (k != 3) book.set_numbers(id, shot, "test");  // the third was never measured
  }
  book.drop_shot(1, "plucked");
  book.drop_block(2, "wind");
  book.add_comment(2, {"", 3.0, 4.0, {}, {}, "dull"});
  book.add_comment(2, {"", {}, 5.0, {}, {}, "less hum"});
  book.add_block_comment(1, {"", {}, {}, {}, 6.0, "all alike"});

  const Session session = logbook_session(book);
  ASSERT_EQ(session.blocks.size(), 2U);
  const SessionBlock& block = session.blocks[0];
  ASSERT_EQ(block.shots.size(), 1U);
  ASSERT_EQ(block.dropped_shots.size(), 1U);
  EXPECT_EQ(block.dropped_shots[0].dropped, "plucked");
  EXPECT_EQ(block.shots[0].shot.number, 2);
  EXPECT_EQ(block.shots[0].shot.hum, 2.0);
  EXPECT_EQ(block.shots[0].said.loud, 3.0);
  EXPECT_EQ(block.shots[0].said.hum, 5.0);
  EXPECT_EQ(block.shots[0].said.words, "dull; less hum");
  EXPECT_EQ(block.said.feel, 6.0);
  EXPECT_EQ(block.said.words, "all alike");
  ASSERT_EQ(block.left_out.size(), 2U);
  EXPECT_EQ(block.left_out[0], "Shot 1 of 'bare' is left out: plucked.");
  EXPECT_NE(block.left_out[1].find("never measured"), std::string::npos);
  EXPECT_EQ(session.blocks[1].dropped, "wind");
  EXPECT_EQ(session.blocks[1].setup, "damper");
  EXPECT_EQ(session.blocks[1].sample_rate_hz, 44100.0);
  EXPECT_EQ(session.setups(), std::vector<std::string>{"bare"});
  // What the logbook knows of bow, session and set-ups goes with it, for the report.
  ASSERT_EQ(session.logbook.sessions.size(), 1U);
  ASSERT_EQ(session.logbook.bows.size(), 1U);
  EXPECT_EQ(session.logbook.bows[0].name, session.logbook.sessions[0].bow);
  ASSERT_EQ(session.logbook.setups.size(), 2U);
  EXPECT_EQ(session.logbook.setups[1].name, "damper");

  const auto findings = confounders(session, "bare");
  EXPECT_TRUE(has_finding(findings, "shot_left_out"));
  EXPECT_TRUE(has_finding(findings, "block_dropped"));
}

/// What a blind session hides must not come out by way of a comparison.
TEST(LogbookSession, NothingIsComparedWhileNumbersAreHidden) {
  const TestFolder folder;
  auto book = logbook::made_up_logbook(folder.path("a"));
  auto conditions = book.conditions();
  conditions.blind = true;
  book.change_session(conditions);
  shot::Shot shot;
  shot.hum = 3.0;
  for (int k = 1; k <= 3; ++k) book.set_numbers(book.add_clip(1, logbook::made_up_clip(k)), shot, "test");
  book.add_comment(1, {"", {}, 4.0, {}, {}, ""});
  EXPECT_EQ(hidden_shots(book.blocks()), (std::vector<std::int64_t>{2, 3}));
  const auto said = hidden_numbers(book.blocks(), "b");
  ASSERT_TRUE(said.has_value());
  EXPECT_NE(hidden_numbers(book.blocks(), "my log")->find("`ringfall comment 'my log' 2 WORDS`"), std::string::npos) << "as it can be typed";
  EXPECT_TRUE(said->starts_with("session 1 is blind and no comment is in yet on 2 shots (2, 3), so")) << *said;
  EXPECT_THROW(logbook_session(book), LogbookFailure);
  EXPECT_EQ(logbook_session(book, std::nullopt, Hidden::taken_in).blocks[0].shots.size(), 3U);
  EXPECT_TRUE(hidden_shots(book.blocks(), "another bow").empty());
  EXPECT_FALSE(hidden_numbers(book.blocks(), "b", "another bow").has_value()) << "other bows' shots are not asked about";

  book.drop_shot(2, "plucked");  // what does not count gives nothing away
  EXPECT_NE(hidden_numbers(book.blocks(), "b")->find("on 1 shot (3)"), std::string::npos) << *hidden_numbers(book.blocks(), "b");
  book.add_block_comment(1, {"", {}, {}, {}, {}, "all alike"});
  EXPECT_FALSE(hidden_numbers(book.blocks(), "b").has_value());
  EXPECT_EQ(logbook_session(book).blocks[0].shots.size(), 2U);
}

/// One measured shot in a new block of this set-up.
void add_measured(logbook::Logbook& book, const std::string& setup, const std::string& file, double hum) {
  const auto block = book.add_block({setup, file, 48000.0, "", "", {}});
  const auto id = book.add_clip(block, logbook::made_up_clip(1));
  shot::Shot shot;
  shot.hum = hum;
  book.set_numbers(id, shot, "test");
}

/// What a set-up does not say is as on the bow (logbook/entries.h): 20 g on the bow, 25 g stated for one set-up.
TEST(LogbookSession, TheBowsArrowIsTheSetUpsUnlessStated) {
  const TestFolder folder;
  auto book = logbook::made_up_logbook(folder.path("a"));
  logbook::Bow bow = book.bows()[0];
  bow.fittings.arrow_mass_kg = 0.020;
  book.change_bow(bow.name, bow);
  logbook::SetUp heavy{"heavy", "another arrow", false, std::nullopt};
  heavy.fittings.arrow_mass_kg = 0.025;
  book.add_setup(heavy);
  add_measured(book, "bare", "one.wav", 1.0);
  add_measured(book, "heavy", "two.wav", 2.0);
  const Session session = logbook_session(book);
  EXPECT_EQ(session.facts_of("bare")->arrow_mass_kg, 0.020);
  EXPECT_EQ(session.facts_of("heavy")->arrow_mass_kg, 0.025);
  EXPECT_TRUE(has_finding(confounders(session, "bare"), "arrow_differs"));
}

TEST(LogbookSession, SessionsBowsAndWhatIsKnownOfThem) {
  const TestFolder folder;
  auto book = logbook::made_up_logbook(folder.path("a"));
  const std::string first_bow = book.conditions().bow;
  add_measured(book, "bare", "one.wav", 1.0);
  auto conditions = book.conditions();
  conditions.temperature_c = 5.0;
  conditions.distance_m = 18.0;
  conditions.microphone = "small one";
  conditions.chain = "gain at 3";
  conditions.full_scale_db_spl = 118.0;
  book.start_session(conditions);
  add_measured(book, "bare", "two.wav", 2.0);
  const Session session = logbook_session(book);
  ASSERT_EQ(session.blocks.size(), 3U);  // the first one is made_up_logbook's, without shots
  EXPECT_NE(session.blocks[1].session, session.blocks[2].session);
  EXPECT_EQ(session.blocks[2].facts.temperature_c, 5.0);
  EXPECT_EQ(session.blocks[2].facts.distance_m, 18.0);
  EXPECT_EQ(session.blocks[2].facts.chain, "small one, gain at 3");
  EXPECT_EQ(session.blocks[2].facts.calibrated, true);
  EXPECT_EQ(session.blocks[2].facts.bow, first_bow);
  EXPECT_GT(session.blocks[2].shots[0].id, session.blocks[1].shots[0].id);
  EXPECT_EQ(logbook_baseline(book, session), "bare");

  // A second bow with a set-up of the same name: both are told apart.
  book.add_bow({"longbow"});
  conditions.bow = "longbow";
  book.start_session(conditions);
  book.add_setup({"bare", "", false, std::nullopt, "longbow"});
  add_measured(book, "bare", "three.wav", 3.0);
  EXPECT_EQ(logbook_session(book).setups(), (std::vector<std::string>{first_bow + ": bare", "longbow: bare"}));
  EXPECT_EQ(logbook_session(book, "longbow").setups(), std::vector<std::string>{"bare"});
}

}  // namespace
}  // namespace ringfall::compare
