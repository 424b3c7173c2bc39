// SPDX-License-Identifier: GPL-3.0-or-later
// What the Range shows of a block while it is shot, and where the microphone is drawn.
#include "desk/sheets/running_sheet.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "desk/desk_hands.h"
#include "desk/figures/placing_sketch.h"

namespace ringfall::desk {
namespace {

/// One session: two blocks of the baseline, one of another set-up, then one of an earlier session that has to stay out.
BookSheet made_book() {
  BookSheet book;
  book.setups = {{"bare", "", true, std::nullopt}, {"wool", "", false, std::nullopt}};
  for (const std::int64_t session : {1, 2}) {
    logbook::Conditions conditions;
    conditions.session = session;
    if (session == 2) conditions.full_scale_db_spl = 118.0;
    book.sessions.push_back(conditions);
  }
  book.conditions = book.sessions.back();
  const auto block = [&](std::int64_t number, const char* setup, std::int64_t session, std::initializer_list<double> hums) {
    logbook::KeptBlock made;
    made.number = number;
    made.setup = setup;
    made.session = session;
    for (const double hum : hums) {
      logbook::KeptShot shot;
      shot.id = 100 * number + static_cast<std::int64_t>(made.shots.size());
      shot.analyser = "test";
      shot.shot.hum = hum;
      made.shots.push_back(shot);
    }
    book.blocks.push_back(made);
  };
  block(1, "bare", 1, {9.0});
  block(2, "bare", 2, {4.0, 4.2});
  block(3, "bare", 2, {4.4});
  block(4, "wool", 2, {1.0, 1.5});
  return book;
}

std::vector<double> dots_of(const RunningSheet& sheet, double place) {
  std::vector<double> values;
  if (!sheet.dots) return values;
  for (const auto& series : sheet.dots->panels.at(0).series) {
    const auto* dots = std::get_if<plot::Dots>(&series);
    for (std::size_t k = 0; dots != nullptr && k < dots->x.size(); ++k) {
      if (dots->x[k] == place) values.push_back(dots->y[k]);
    }
  }
  return values;
}

TEST(Running, SetsTheBlockAgainstTheBaselineOfItsSession) {
  const auto sheet = running_sheet(made_book(), {0, 4, "hum", false}, 1);
  ASSERT_NE(sheet, nullptr);
  EXPECT_EQ(dots_of(*sheet, 0.0), (std::vector<double>{4.0, 4.2, 4.4})) << "not those of another session";
  EXPECT_EQ(dots_of(*sheet, 1.0), (std::vector<double>{1.0, 1.5}));
  EXPECT_EQ(sheet->dots->panels[0].x.categories, (std::vector<std::string>{"bare", "wool, block 4"}));
  ASSERT_EQ(sheet->rows.size(), 2U);
  EXPECT_EQ(sheet->rows[1].words[0], "1.5");
  EXPECT_EQ(sheet->rows[1].words[3], "-") << "no ring-down was measured";
}

TEST(Running, LevelsAreOfTheBlocksOwnSession) {
  BookSheet book = made_book();
  for (auto& block : book.blocks) {
    for (auto& shot : block.shots) shot.shot.levels.exposure_db = -45.0;
  }
  EXPECT_EQ(running_sheet(book, {0, 1, "exposure_db", false}, 1)->dots->panels[0].y.unit, "dB re full scale") << "session 1 was not calibrated";
  EXPECT_EQ(running_sheet(book, {0, 4, "exposure_db", false}, 1)->dots->panels[0].y.unit, "dB re 20 uPa");
}

TEST(Running, AShotThatIsNotMeasuredYetIsNoRow) {
  BookSheet book = made_book();
  book.blocks[3].shots[1].analyser.clear();
  const auto sheet = running_sheet(book, {0, 4, "hum", false}, 1);
  ASSERT_EQ(sheet->rows.size(), 1U);
  EXPECT_EQ(sheet->rows[0].shot, 400);
}

TEST(Running, ABlockOfTheBaselineStandsBesideTheOnesBeforeIt) {
  const auto sheet = running_sheet(made_book(), {0, 3, "hum", false}, 1);
  ASSERT_NE(sheet, nullptr);
  EXPECT_EQ(dots_of(*sheet, 0.0), (std::vector<double>{4.0, 4.2}));
  EXPECT_EQ(dots_of(*sheet, 1.0), (std::vector<double>{4.4}));
}

TEST(Running, ShowsNothingOfWhatIsHiddenOrLeftOut) {
  BookSheet book = made_book();
  for (auto& block : book.blocks) block.blind = true;
  book.blocks[3].shots[0].comments.push_back({});
  auto sheet = running_sheet(book, {0, 4, "hum", false}, 1);
  EXPECT_TRUE(dots_of(*sheet, 1.0).empty()) << "the baseline has no words yet: the first place is the block's own";
  EXPECT_EQ(dots_of(*sheet, 0.0), (std::vector<double>{1.0}));
  EXPECT_EQ(sheet->rows[0].words[0], "1.0");
  EXPECT_EQ(sheet->rows[1].words, (BigWords{"?", "?", "?", "?"}));
  book.blocks[3].shots[0].comments.clear();
  EXPECT_FALSE(running_sheet(book, {0, 4, "hum", false}, 1)->dots);
  BookSheet left_out = made_book();
  left_out.blocks[1].dropped = "gusts";
  left_out.blocks[2].shots[0].dropped = "plucked";
  sheet = running_sheet(left_out, {0, 4, "hum", false}, 1);
  EXPECT_EQ(dots_of(*sheet, 0.0), (std::vector<double>{1.0, 1.5}));
  EXPECT_FALSE(running_sheet(made_book(), {0, 4, "hum", true}, 1)->dots) << "the window's own wish hides alike";
  EXPECT_EQ(running_sheet(made_book(), {0, 5, "hum", false}, 1), nullptr) << "no such block";
}

TEST_F(DeskHands, TheRangeShowsWhatWasShotSoFar) {
  open_demo();
  hands.press("Range");
  hands.settle();
  ASSERT_NE(desk.running, nullptr);
  EXPECT_EQ(desk.running->block, 12) << "block 13 is left out";
  EXPECT_TRUE(hands.sees("running dots"));
  EXPECT_FALSE(hands.sees("running wave")) << "before shooting no shot is the newest";
  const auto before = desk.running;
  desk.preferences.main_number = "ping";
  hands.settle();
  EXPECT_NE(desk.running, before) << "the question is another";
  hands.press("Book");
  hands.press("New session");
  hands.press("Start the session");
  hands.settle();
  hands.press("Range");
  hands.settle();
  EXPECT_FALSE(hands.sees("running dots")) << "nothing is shot in this session yet";
}

// Places to scale: the microphone is a metre from the grip, which is 0.6 m forward of the line.
TEST(PlacingSketch, TheMicrophoneIsAMetreFromTheGripAndBehindTheLine) {
  const auto picture = placing_sketch(300.0, 150.0);
  double line = 0.0;
  plot::Point grip;
  plot::Point microphone;
  for (const auto& mark : picture.marks) {
    const auto* way = std::get_if<plot::Polyline>(&mark);
    if (way == nullptr) continue;
    if (way->width_pt == 1.6 && way->ink == plot::Ink::accent) line = way->points[0].x;
    if (way->dash != plot::Dash::dotted) continue;
    grip = way->points[0];
    microphone = way->points[1];
  }
  const double metre = (grip.x - line) / 0.6;
  ASSERT_GT(metre, 20.0);
  EXPECT_NEAR(std::hypot(grip.x - microphone.x, grip.y - microphone.y) / metre, 1.0, 0.01);
  EXPECT_LT(microphone.x, line);
  EXPECT_LT(microphone.y, 140.0) << "in the picture";
}

}  // namespace
}  // namespace ringfall::desk
