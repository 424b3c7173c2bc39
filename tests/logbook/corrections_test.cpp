// SPDX-License-Identifier: GPL-3.0-or-later
// What a person says against the finder, and how it is taken back.
#include <gtest/gtest.h>

#include "base/failure.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

TEST(Corrections, TheReasonOfBeforeComesBack) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  const auto dropped = [&book] { return book.blocks()[0].shots[0].dropped; };
  book.drop_shot(1, "arm hit");
  book.say_not_a_shot(1);
  book.undo_correction(1);
  EXPECT_EQ(dropped(), "arm hit");
  // Said twice, taken back twice.
  book.say_not_a_shot(1);
  book.say_not_a_shot(1);
  book.undo_correction(1);
  EXPECT_EQ(dropped(), "not a shot");
  book.undo_correction(1);
  EXPECT_EQ(dropped(), "arm hit");
  // What was said since goes before.
  book.say_not_a_shot(1);
  book.drop_shot(1, "plucked");
  book.undo_correction(1);
  EXPECT_EQ(dropped(), "plucked");
  book.say_not_a_shot(1);
  book.drop_shot(1, "");
  book.undo_correction(1);
  EXPECT_EQ(dropped(), "");
}

TEST(Corrections, AMovedEdgeTakesTheOldNumbersAway) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  shot::Shot measured;
  measured.hum = 4.0;
  measured.tail_end_s = 2.9;
  measured.tones = {{95.0, 61.0, 0.4, 0.01, shot::ToneFamily::hum}};
  measured.hits = {{0.0, -3.0}};
  measured.findings = {{"made_up", Severity::note, {}, "Of the whole recording.", Origin::recording},
                       {"said", Severity::note, {}, "By a person.", Origin::person},
                       {"of_the_clip", Severity::void_, {Quantity::hum}, "Of the old edge.", Origin::clip}};
  const auto kept = [&book] { return book.blocks()[0].shots[0]; };
  const auto expect_not_measured = [&kept](const char* when) {
    EXPECT_EQ(kept().analyser, "") << when;
    EXPECT_FALSE(kept().shot.hum || kept().shot.tail_end_s) << when;
    EXPECT_TRUE(kept().shot.tones.empty() && kept().shot.hits.empty()) << when;
    ASSERT_EQ(kept().shot.findings.size(), 2U) << when << ": measuring again takes them over, and says the clip's anew";
    EXPECT_EQ(kept().shot.findings[0].origin, Origin::recording);
    EXPECT_EQ(kept().shot.findings[1].origin, Origin::person);
  };
  // Each as if the program had died before it measured again.
  book.set_numbers(1, measured, "0.1");
  book.move_edge(1, 2.51);
  expect_not_measured("moved");
  book.set_numbers(1, measured, "0.1");
  book.undo_correction(1);
  expect_not_measured("moved back");
  book.set_numbers(1, measured, "0.1");
  book.say_not_a_shot(1);
  book.undo_correction(1);
  EXPECT_EQ(kept().shot.hum, 4.0) << "its edge never moved";
  // While one listens, the places come with the end of the block.
  const shot::Clip places = book.clip(1).places;
  book.set_places(1, 2.5, places);
  EXPECT_EQ(kept().shot.hum, 4.0) << "nothing has moved";
  shot::Clip other = places;
  other.next_shot_sample = 300000;
  book.set_places(1, 2.5, other);
  expect_not_measured("other places");
  EXPECT_EQ(book.clip(1).places.next_shot_sample, 300000);
}

}  // namespace
}  // namespace ringfall::logbook
