// SPDX-License-Identifier: GPL-3.0-or-later
// At the range with a made-up microphone, by hand; and listening afterwards, A against B and blind.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "desk/desk_hands.h"
#include "desk/made_port.h"
#include "intake/demo_evening.h"
#include "support/demo_fives.h"

namespace ringfall::desk {
namespace {

class RangeHands : public DeskHands {
 protected:
  RangeHands() : RangeHands(std::make_shared<MadePort>()) {}
  explicit RangeHands(const std::shared_ptr<MadePort>& made) : DeskHands(made), port(made) {}

  void go_to_the_range() {
    open_demo();
    blocks = desk.book->blocks.size();
    for (const auto& shot : desk.book->blocks[1].shots) edges_s.push_back(shot.shot.onset_s);
    // Two more are heard than the book's block has; every third shot of the story stands alike.
    for (std::size_t k = 3; k < 5; ++k) edges_s.push_back(edges_s[k - 3] + 3.0 * intake::kDemoSpacing_s);
    port->heard = intake::demo_samples(five_shot_blocks(), 1);
    port->reins.most = 0;
    hands.press("Range");
    hands.settle();
  }
  void let_hear_to(double seconds) {
    const std::scoped_lock hold(port->reins.lock);
    port->reins.most = static_cast<std::size_t>(seconds * port->rate_hz);
  }
  template <typename Until>
  bool draw_until(Until until) {
    const auto late = std::chrono::steady_clock::now() + std::chrono::seconds(60);
    while (!until()) {
      if (std::chrono::steady_clock::now() > late) return false;
      hands.frames(1);
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return true;
  }

  std::shared_ptr<MadePort> port;
  std::size_t blocks = 0;
  std::vector<double> edges_s;
};

// What is heard belongs to the logbook that it began in: it is neither closed nor changed for another meanwhile.
TEST_F(RangeHands, TheLogbookStaysOpenWhileItListens) {
  go_to_the_range();
  hands.press("made-up microphone##source");
  hands.press("Listen");
  ASSERT_TRUE(desk.hearing.ears);
  const std::string other = folder.path("other.ringfall");
  put_demo(other);
  desk.open(other);
  hands.settle();
  EXPECT_EQ(desk.book->path, book);
  hands.press("Book");
  hands.press("Close the logbook");
  hands.settle();
  ASSERT_TRUE(desk.book);
  EXPECT_EQ(desk.book->path, book);
  EXPECT_TRUE(desk.hearing.ears);
  hands.press("Range");
  hands.press("Stop listening");
  hands.settle();
  desk.open(other);
  hands.settle();
  EXPECT_EQ(desk.book->path, other);
}

TEST_F(RangeHands, ArmsPausesAndGoesOnSlowUnderSanitizer) {
  go_to_the_range();
  ASSERT_EQ(edges_s.size(), 5U);
  // What was done to this set-up takes two lines more: a window with room for both pictures.
  ImGui::GetIO().DisplaySize.y = 960.0F;
  hands.frames(2);
  hands.press("felt cuff##range setup");
  hands.press("made-up microphone##source");
  hands.type("range note", "by hand");
  hands.press("Listen");
  ASSERT_TRUE(desk.hearing.ears);
  EXPECT_TRUE(desk.hearing.ears->armed());
  // Two and a half seconds after a shot its sound is kept.
  let_hear_to(edges_s[1] + 2.5);
  ASSERT_TRUE(draw_until([this] { return desk.hearing.shots == 2; }));
  // What the shot before said stands under the newest, their dots beside the baseline's, and the newest one's wave.
  ASSERT_TRUE(draw_until([this] { return hands.sees("running wave") && hands.sees("running dots"); }));
  const auto newest = desk.chosen;
  desk.choose(1);
  ASSERT_TRUE(draw_until([this] { return desk.shot && desk.shot->id == 1; }));
  hands.frames(2);
  EXPECT_FALSE(hands.sees("running wave")) << "another shot's wave is not the newest one's, and may have to stay hidden";
  desk.choose(newest);
  ASSERT_TRUE(draw_until([this] { return hands.sees("running wave"); }));
  ASSERT_TRUE(draw_until([this] { return desk.running->rows.size() == 2 && desk.hearing.last->id == desk.running->rows[1].shot; }));
  hands.frames(1);
  EXPECT_TRUE(hands.sees("earlier shot " + std::to_string(desk.running->rows[0].shot)));
  EXPECT_FALSE(hands.sees("earlier shot " + std::to_string(desk.running->rows[1].shot))) << "that is the newest";
  hands.press("Pause##arm");
  EXPECT_FALSE(desk.hearing.ears->armed());
  let_hear_to(edges_s[3] + 2.5);
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
  hands.frames(3);
  EXPECT_EQ(desk.hearing.shots, 2) << "nothing is kept while it pauses";
  hands.press("Go on##arm");
  EXPECT_TRUE(desk.hearing.ears->armed());
  let_hear_to(1e6);
  ASSERT_TRUE(draw_until([this] { return desk.hearing.ears == nullptr; }));
  hands.settle();
  const auto now = logbook::Logbook(book).blocks();
  std::vector<double> kept_s;
  std::size_t kept = 0;
  for (std::size_t k = blocks; k < now.size(); ++k) {
    EXPECT_EQ(now[k].setup, "felt cuff");
    kept += now[k].shots.size();
  }
  ASSERT_GT(now.size(), blocks);
  EXPECT_EQ(now[blocks].note, "by hand");
  EXPECT_EQ(kept, 3U) << "the two before the pause and the one after it";
}

TEST_F(RangeHands, TakesTheNextBlockWithAnotherSetUpAndStopsSlowUnderSanitizer) {
  go_to_the_range();
  hands.press("made-up microphone##source");
  hands.press("Listen");
  let_hear_to(edges_s[0] + 2.5);
  ASSERT_TRUE(draw_until([this] { return desk.hearing.shots == 1; }));
  hands.press("felt cuff##next setup");
  EXPECT_EQ(desk.hearing.setup, "felt cuff");
  let_hear_to(edges_s[1] + 2.5);
  ASSERT_TRUE(draw_until([this] { return desk.hearing.shots == 2; }));
  hands.press("Stop listening");
  ASSERT_TRUE(draw_until([this] { return desk.hearing.ears == nullptr; }));
  hands.settle();
  const auto now = logbook::Logbook(book).blocks();
  ASSERT_EQ(now.size(), blocks + 2);
  EXPECT_EQ(now[blocks].shots.size(), 1U);
  EXPECT_EQ(now[blocks + 1].setup, "felt cuff");
  EXPECT_EQ(now[blocks + 1].shots.size(), 1U);
}

TEST_F(RangeHands, ABlindSessionShowsNoBigFiguresBeforeTheWordsSlowUnderSanitizer) {
  put_demo(book);
  {
    logbook::Logbook blind(book);
    auto session = blind.conditions();
    session.blind = true;
    blind.change_session(session);
  }
  desk.open(book);
  hands.settle();
  for (const auto& shot : desk.book->blocks[1].shots) edges_s.push_back(shot.shot.onset_s);
  port->heard = intake::demo_samples(five_shot_blocks(), 1);
  port->reins.most = 0;
  port->reins.ends = false;
  hands.press("Range");
  hands.settle();
  hands.press("made-up microphone##source");
  hands.press("Listen");
  let_hear_to(edges_s[0] + 2.5);
  // From the first look on, which comes before the shot is kept.
  ASSERT_TRUE(draw_until([this] {
    EXPECT_FALSE(hands.sees("big figures"));
    return desk.hearing.shots == 1 && desk.hearing.last && desk.hearing.last->id == desk.chosen && !desk.hearing.last->first_look;
  }));
  ASSERT_TRUE(draw_until([this] { return hands.sees("hum 3"); }));
  EXPECT_FALSE(hands.sees("big figures"));
  EXPECT_FALSE(hands.sees("running wave")) << "pictures give numbers away";
  EXPECT_FALSE(hands.sees("running tail"));
  hands.press("hum 3");
  hands.press("Keep the words");
  ASSERT_TRUE(draw_until([this] { return hands.sees("big figures"); }));
  hands.press("Stop listening");
  ASSERT_TRUE(draw_until([this] { return desk.hearing.ears == nullptr; }));
}

TEST_F(RangeHands, ChecksTheChainWithAClap) {
  go_to_the_range();
  // Quiet, then a shot of the evening in place of the clap.
  port->heard.erase(port->heard.begin(), port->heard.begin() + static_cast<std::ptrdiff_t>((edges_s[1] - 5.0) * port->rate_hz));
  let_hear_to(1e6);
  hands.press("made-up microphone##source");
  hands.press("Check it");
  hands.settle();
  ASSERT_GE(desk.chain_lines.size(), 7U) << "one line a quantity";
  EXPECT_TRUE(desk.chain_lines.front().starts_with("levels: "));
}

TEST_F(RangeHands, HearsAAgainstBAndScoresABlindTestSlowUnderSanitizer) {
  open_demo();
  hands.press("Ears");
  hands.settle();
  ASSERT_NE(desk.comparison, nullptr);
  const auto& excerpts = desk.comparison->excerpts;
  const auto setup_of = [&excerpts](const std::vector<float>& sound) {
    const auto found = std::ranges::find(excerpts, sound, &Excerpt::samples);
    return found == excerpts.end() ? std::string("none") : found->setup;
  };
  const auto hear = [this](const std::string& what) {
    hands.press(what);
    hands.settle();
    return port->played.back();
  };
  const auto& setups = desk.comparison->report.source.comparison.setups;
  ASSERT_GE(setups.size(), 3U);
  EXPECT_TRUE(hands.sees("ears picture panel 0")) << "what the two look like";
  hands.press(setups[0] + "##first");
  hands.press(setups[2] + "##second");
  EXPECT_EQ(setup_of(hear("A (a)")), setups[0]);
  EXPECT_EQ(setup_of(hear("B (b)")), setups[2]);
  EXPECT_EQ(setup_of(hear(std::to_string(excerpts.front().shot) + "##hear")), excerpts.front().setup);
  // An ear that hears every difference: right each time.
  for (int round = 0; round < 6; ++round) hands.press(setup_of(hear("X (x)")) == setups[0] ? "X is A" : "X is B");
  const auto score = [this](const std::string& begin) {
    return std::ranges::any_of(hands.places(), [&](const auto& place) { return place.first.starts_with(begin); });
  };
  EXPECT_TRUE(score("6 of 6 right"));
  // One that mishears: the hidden one is told by its sound and the other is said.
  hands.press(setup_of(hear("X (x)")) == setups[0] ? "X is B" : "X is A");
  EXPECT_TRUE(score("6 of 7 right"));
  EXPECT_TRUE(hands.sees("round 6 right"));
  EXPECT_TRUE(hands.sees("round 7 wrong"));
  hands.press("Start over");
  EXPECT_FALSE(hands.sees("round 7 wrong"));
  EXPECT_FALSE(score("6 of 7 right"));
  // Two alike can't be told apart: they change places.
  hands.press(setups[0] + "##second");
  EXPECT_EQ(setup_of(hear("B (b)")), setups[0]);
  EXPECT_EQ(setup_of(hear("A (a)")), setups[2]);
}

}  // namespace
}  // namespace ringfall::desk
