// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/sessions.h"

#include <gtest/gtest.h>

#include "base/failure.h"

namespace ringfall::work {
namespace {

logbook::Conditions made_up_evening() {
  logbook::Conditions last;
  last.bow = "made-up bow";
  last.started_at = "2026-05-01T10:00:00Z";
  last.place = "hall";
  last.distance_m = 18.0;
  last.temperature_c = 15.0;
  last.humidity_percent = 40.0;
  last.chain = "gain at 3";
  last.microphone = "small one";
  last.device = "box";
  last.full_scale_db_spl = 118.0;
  last.check_tone_db = -20.0;
  last.blind = true;
  last.note = "gusts";
  return last;
}

TEST(Sessions, WhatIsNotSaidIsAsBeforeButAirToneAndRemarkAreItsOwn) {
  const auto next = next_session(made_up_evening(), "", {});
  const auto& now = next.conditions;
  EXPECT_TRUE(now.started_at.empty() && now.note.empty());
  EXPECT_FALSE(now.temperature_c || now.humidity_percent || now.check_tone_db);
  EXPECT_EQ(now.bow, "made-up bow");
  EXPECT_EQ(now.distance_m, 18.0);
  EXPECT_EQ(now.full_scale_db_spl, 118.0);
  EXPECT_TRUE(now.blind);
  EXPECT_FALSE(next.other_chain || next.calibration_lost);
  EXPECT_EQ(next.taken_over, (std::vector<std::string>{"bow 'made-up bow'", "place 'hall'", "distance 18 m", "microphone 'small one'",
                                                       "device 'box'", "chain 'gain at 3'", "full scale 118 dB", "blind"}));
}

// A full-scale level is of one microphone, recorder and gain: with another it says nothing.
TEST(Sessions, ACalibrationHoldsForItsChainOnly) {
  for (const auto said : {&SessionChange::microphone, &SessionChange::device, &SessionChange::chain}) {
    SessionChange change;
    change.*said = "another";
    const auto next = next_session(made_up_evening(), "", change);
    EXPECT_TRUE(next.other_chain && next.calibration_lost);
    EXPECT_FALSE(next.conditions.full_scale_db_spl);
    for (const auto& words : next.taken_over) EXPECT_FALSE(words.starts_with("full scale") || words.starts_with("microphone")) << words;
    change.full_scale_db_spl = 112.0;
    EXPECT_EQ(next_session(made_up_evening(), "", change).conditions.full_scale_db_spl, 112.0) << "said anew";
  }
  SessionChange same;
  same.microphone = "small one";
  same.chain = "gain at 3";
  EXPECT_EQ(next_session(made_up_evening(), "", same).conditions.full_scale_db_spl, 118.0) << "said again, and the same";
  SessionChange other;
  other.microphone = "another";
  auto uncalibrated = made_up_evening();
  uncalibrated.full_scale_db_spl.reset();
  EXPECT_FALSE(next_session(uncalibrated, "", other).calibration_lost);
}

TEST(Sessions, AnotherBowIsNotTakenOver) {
  const auto next = next_session(made_up_evening(), "longbow", {});
  EXPECT_EQ(next.conditions.bow, "longbow");
  EXPECT_EQ(next.taken_over.front(), "place 'hall'");
  EXPECT_NO_THROW(need_session_bow(next.conditions, ""));
  EXPECT_NO_THROW(need_session_bow(next.conditions, "longbow"));
  EXPECT_THROW(need_session_bow(next.conditions, "made-up bow"), RequestFailure);
}

}  // namespace
}  // namespace ringfall::work
