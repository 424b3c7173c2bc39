// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/answer_words.h"

#include <gtest/gtest.h>

#include "report/example_report.h"

namespace ringfall::report {
namespace {

using compare::Change;
using compare::Statement;
using compare::Verdict;

Statement said_of(const char* number, Change change, Verdict verdict, double from, double to, double half) {
  Statement said;
  said.number = number;
  if (const auto* known = shot::find_number(number)) {
    said.label = known->label;
    said.unit = known->unit;
    said.decimals = known->decimals;
  }
  said.change = change;
  said.verdict = verdict;
  said.from = from;
  said.to = to;
  said.difference = to - from;
  said.interval = stats::Interval{to - from - half, to - from + half};
  return said;
}

// The limits are docs/measures/report.md#words.
TEST(AnswerWords, ScoresHaveWords) {
  EXPECT_STREQ(score_word(0.9), "none");
  EXPECT_STREQ(score_word(1.0), "slight");
  EXPECT_STREQ(score_word(3.0), "plain");
  EXPECT_STREQ(score_word(6.0), "strong");
  EXPECT_STREQ(score_word(7.9), "strong");
  EXPECT_STREQ(score_word(8.0), "very ringing");
}

TEST(AnswerWords, FromToAndHowMuch) {
  EXPECT_EQ(statement_text(said_of("hum", Change::less, Verdict::clear, 7.2, 4.1, 0.3)), "Much less hum (7.2 -> 4.1, strong -> plain)");
  EXPECT_EQ(statement_text(said_of("ping", Change::more, Verdict::differs, 4.0, 5.0, 0.4)), "More ping (4.0 -> 5.0, plain)");
  EXPECT_EQ(statement_text(said_of("ping", Change::same, Verdict::at_most_small, 4.0, 3.9, 0.2)), "Ping about the same (4.0 -> 3.9, plain)");
  EXPECT_EQ(statement_text(said_of("exposure_db", Change::less, Verdict::small, -43.4, -44.0, 0.3)), "Slightly quieter (-43.4 -> -44.0 dB)");
}

TEST(AnswerWords, WhatIsOpenClaimsNothing) {
  EXPECT_EQ(statement_text(said_of("exposure_db", Change::open, Verdict::not_settled, -43.0, -44.3, 3.7)), "Loudness not settled (-1.3 +- 3.7 dB)");
  EXPECT_EQ(statement_text(said_of("hum", Change::leaning_less, Verdict::hint, 5.0, 4.0, 0.8)), "Perhaps less hum, not sure (-1.0 +- 0.8 points)");
  Statement none;
  none.number = "ping";
  none.why_not = "too few values, or all alike";
  EXPECT_EQ(statement_text(none), "Ping: no answer, too few values, or all alike");
}

TEST(AnswerWords, ABoundSaysAtMostAndAtLeast) {
  auto said = said_of("hum", Change::less, Verdict::clear, 6.0, 2.1, 0.3);
  said.to_at_most = true;
  said.at_least = -3.4;
  said.interval = stats::Interval{-6.1, -3.4};
  EXPECT_EQ(statement_text(said), "Much less hum, by 3.4 at least (6.0 -> at most 2.1, strong -> slight)");
  // An interval that does not lie round the difference is given by its ends.
  said.change = Change::open;
  EXPECT_EQ(statement_text(said), "Hum not settled (-6.1 to -3.4 points)");
}

TEST(AnswerWords, AStandInSaysThatItIsOne) {
  auto said = said_of("hum_tail_db", Change::less, Verdict::differs, -50.0, -53.0, 1.0);
  said.unit = "dB";
  said.decimals = 1;
  said.instead_of = "hum";
  EXPECT_EQ(statement_text(said), "Less hum, by the level of its tail (-50.0 -> -53.0 dB)");
}

TEST(AnswerWords, AWholeComparison) {
  const auto source = source_of(example_session());
  const auto& comparison = source.comparison;
  // Hum lies round 6 and round 2 points; ping and exposure are the same but for their spread.
  EXPECT_NE(headline(comparison).find("Hum: less with 'plug'."), std::string::npos) << headline(comparison);
  EXPECT_NE(headline(comparison).find("Loudness: no difference shown."), std::string::npos) << headline(comparison);
  EXPECT_NE(answer_text(comparison.answers.front()).find("Much less hum (6."), std::string::npos) << answer_text(comparison.answers.front());
  EXPECT_NE(sureness_text(comparison).find("It rests on 2 blocks a set-up."), std::string::npos) << sureness_text(comparison);
  EXPECT_FALSE(next_texts(comparison).empty());
  for (const char* term : {"Holm", "tau", "95 %", "p <"}) EXPECT_EQ(answer_text(comparison.answers.front()).find(term), std::string::npos);
  EXPECT_EQ(asked(comparison), "Hum: does 'plug' differ from 'bare'?") << "one number was asked for";
  const auto general = compare::compare_setups(source.session, std::nullopt, "exposure_db");
  EXPECT_EQ(asked(general), "Which is quieter and deader?");
}

TEST(AnswerWords, ARankingJoinsWhatIsNotToldApart) {
  const auto comparison = compare::compare_setups(example_session(), std::nullopt, "exposure_db");
  for (const auto& ranking : comparison.rankings) {
    if (ranking.number == "hum") { EXPECT_TRUE(ranking_text(ranking).starts_with("Hum, least first: 1 plug ")) << ranking_text(ranking); }
    if (ranking.number == "ping") { EXPECT_NE(ranking_text(ranking).find("not told apart"), std::string::npos) << ranking_text(ranking); }
  }
}

TEST(AnswerWords, WhatWasLeftOutIsADoubtANoteIsNot) {
  compare::Comparison comparison;
  comparison.findings = {{"block_dropped", Severity::note, {}, "dropped."}, {"few_shots", Severity::note, {}, "a note."},
                         {"floor_differs", Severity::caution, {}, "a caution."},
                         {"added_mass_differs", Severity::caution, {}, "'cuff' weighs 60 g more."}};
  EXPECT_EQ(doubt_texts(comparison), (std::vector<std::string>{"dropped.", "a caution.", "'cuff' weighs 60 g more."}));
  comparison.controls = {{"cuff", "clay"}};
  EXPECT_EQ(doubt_texts(comparison).size(), 2U) << "the dummy was shot";
}

}  // namespace
}  // namespace ringfall::report
