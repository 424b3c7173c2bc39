// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <imgui_internal.h>

#include <atomic>
#include <cmath>
#include <thread>

#include "desk/sheets/blind_test.h"
#include "desk/sheets/lane.h"
#include "desk/figures/line_work.h"
#include "desk/parts/palette.h"
#include "desk/parts/parts.h"
#include "desk/model/preferences.h"
#include "desk/places/range_view.h"
#include "support/test_folder.h"

namespace ringfall::desk {
namespace {

plot::Colour unpack(ImU32 colour) {
  const auto part = [colour](int shift) { return static_cast<std::uint8_t>((colour >> shift) & 0xFFU); };
  return {part(IM_COL32_R_SHIFT), part(IM_COL32_G_SHIFT), part(IM_COL32_B_SHIFT)};
}

// WCAG 2.1, 1.4.3 (text 4.5) and 1.4.11 (other things 3).
TEST(Palette, WordsAndSignsStandOutInBothThemes) {
  for (const plot::Theme theme : {plot::Theme::light, plot::Theme::dark}) {
    const Palette p = palette_of(theme);
    for (const ImU32 under : {p.ground, p.sheet, p.well, p.hover}) {
      EXPECT_GE(plot::contrast_ratio(unpack(p.text), unpack(under)), 4.5);
      EXPECT_GE(plot::contrast_ratio(unpack(p.muted), unpack(under)), 4.5);
      EXPECT_GE(plot::contrast_ratio(unpack(p.wax), unpack(under)), 3.0);
      EXPECT_GE(plot::contrast_ratio(unpack(p.caution), unpack(under)), 3.0);
    }
    // Sentences are set in it.
    for (const ImU32 under : {p.sheet, p.well}) EXPECT_GE(plot::contrast_ratio(unpack(p.caution), unpack(under)), 4.5);
    EXPECT_GE(plot::contrast_ratio(unpack(p.on_wax), unpack(p.wax)), 4.5);
  }
}

TEST(Preferences, ComeBackAsTheyWere) {
  Preferences kept;
  kept.theme = plot::Theme::light;
  kept.text_scale = 1.3;
  kept.archers_units = true;
  kept.words_first = true;
  kept.main_number = "ping";
  kept.device = "desk microphone";
  remember_book(kept, "/a/b c.ringfall");
  remember_book(kept, "/d.ringfall");
  remember_book(kept, "/a/b c.ringfall");
  const TestFolder folder;
  save_preferences(kept, folder.path("config/ringfall"));
  const Preferences read = load_preferences(folder.path("config/ringfall"));
  EXPECT_EQ(text_of_preferences(read), text_of_preferences(kept));
  EXPECT_EQ(read.recent, (std::vector<std::string>{"/a/b c.ringfall", "/d.ringfall"}));
}

TEST(Preferences, ADamagedFileCostsNothingButTheSettings) {
  const Preferences read = preferences_of_text("theme pink\ntext_scale 900\nwidth -3\nmain_number nonsense\n\n\x01\xff\nrecent");
  EXPECT_EQ(read.theme, plot::Theme::dark);
  EXPECT_EQ(read.text_scale, 2.0);
  EXPECT_EQ(read.width, Preferences{}.width);
  EXPECT_EQ(read.main_number, "hum");
  EXPECT_TRUE(load_preferences("/nowhere/at/all").recent.empty());
}

TEST(LineWork, ThinnedLinesKeepEveryColumnsExtremes) {
  std::vector<ImVec2> points;
  for (int k = 0; k < 1000; ++k) points.push_back({static_cast<float>(k) / 100.0F, static_cast<float>((k * 37) % 101)});
  const auto all = points;
  thin_to_columns(points);
  EXPECT_LE(points.size(), 40U);  // ten columns, four points each
  for (int column = 0; column < 10; ++column) {
    const auto extremes = [column](const std::vector<ImVec2>& of) {
      float low = 1e9F;
      float high = -1e9F;
      for (const ImVec2& p : of) {
        if (static_cast<int>(p.x) != column) continue;
        low = std::min(low, p.y);
        high = std::max(high, p.y);
      }
      return std::pair(low, high);
    };
    EXPECT_EQ(extremes(points), extremes(all)) << column;
  }
}

// A peak of one pixel's width, up and down again, is as wide as a straight line: seen in the triangles it is drawn with.
TEST(LineWork, ALineThatTurnsBackKeepsItsWidth) {
  const auto area = [](const std::vector<ImVec2>& points) {
    ImDrawListSharedData shared;
    ImDrawList list(&shared);
    list._ResetForNewFrame();
    list.PushTextureID(nullptr);
    list.Flags = ImDrawListFlags_AntiAliasedLines;
    list._FringeScale = 1.0F;
    add_line(list, points, IM_COL32_WHITE, 1.0F);
    double sum = 0.0;
    for (int k = 0; k + 2 < list.IdxBuffer.Size; k += 3) {
      const ImVec2 a = list.VtxBuffer[list.IdxBuffer[k]].pos;
      const ImVec2 b = list.VtxBuffer[list.IdxBuffer[k + 1]].pos;
      const ImVec2 c = list.VtxBuffer[list.IdxBuffer[k + 2]].pos;
      sum += 0.5 * std::abs(static_cast<double>((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)));
    }
    return sum;
  };
  const double straight = area({{0.0F, 0.0F}, {200.0F, 0.0F}});
  EXPECT_NEAR(area({{0.0F, 0.0F}, {0.5F, 100.0F}, {1.0F, 0.0F}}), straight, 0.02 * straight);
  EXPECT_NEAR(area({{0.0F, 0.0F}, {100.0F, 0.0F}, {200.0F, 0.0F}}), straight, 0.02 * straight);
}

TEST(LineWork, DashesCoverTheirShareOfALine) {
  double drawn = 0.0;
  for (const auto& part : dashed({{0.0F, 0.0F}, {60.0F, 0.0F}, {60.0F, 40.0F}}, {6.0, 4.0})) {
    for (std::size_t k = 1; k < part.size(); ++k) {
      drawn += static_cast<double>(std::hypot(part[k].x - part[k - 1].x, part[k].y - part[k - 1].y));
    }
  }
  EXPECT_NEAR(drawn, 60.0, 0.1);  // 100 px, six on of every ten
}

TEST(LaneThreads, GivesBackInOrderAndSurvivesFailures) {
  std::vector<std::string> got;
  std::atomic<int> woken{0};
  Lane lane([&] { ++woken; }, [&](const std::string& words) { got.push_back("trouble: " + words); });
  lane.post("one", [&](Ticket& ticket) -> Lane::Result {
    ticket.report(0.5);
    return [&] { got.emplace_back("one"); };
  });
  lane.post("two", [](Ticket&) -> Lane::Result { throw std::runtime_error("no"); });
  lane.post("three", [&](Ticket&) -> Lane::Result { return [&] { got.emplace_back("three"); }; });
  lane.wait_idle();
  EXPECT_TRUE(lane.apply());
  EXPECT_EQ(got, (std::vector<std::string>{"one", "trouble: no", "three"}));
  EXPECT_FALSE(lane.apply());
}

TEST(LaneThreads, StopsWhatRunsWhenAskedAndWhenItEnds) {
  std::atomic<bool> started{false};
  {
    Lane lane([] {}, [](const std::string&) {});
    const auto wait = [&](Ticket& ticket) -> Lane::Result {
      started = true;
      while (!ticket.cancelled()) std::this_thread::yield();
      return {};
    };
    lane.post("long", wait);
    while (!started) std::this_thread::yield();
    lane.cancel();
    lane.wait_idle();
    started = false;
    lane.post("long again", wait);
    while (!started) std::this_thread::yield();
  }  // must not hang
  SUCCEED();
}

// Held in `wake` after the first piece, the lane has not begun the second: what it shows is what is stopped.
TEST(LaneThreads, StopsWhatIsAboutToRun) {
  std::atomic<bool> goes_on{false};
  std::atomic<bool> stopped{false};
  Lane lane([&] { goes_on.wait(false); }, [](const std::string&) {});
  lane.post("first", [](Ticket&) -> Lane::Result { return {}; });
  lane.post("second", [&](Ticket& ticket) -> Lane::Result {
    stopped = ticket.cancelled();
    return {};
  });
  while (!lane.busy() || lane.busy()->what != "second") std::this_thread::yield();
  lane.cancel();
  goes_on = true;
  goes_on.notify_all();
  lane.wait_idle();
  EXPECT_TRUE(stopped);
}

TEST(LaneThreads, WakesWhenTheShareHasMovedByAHundredth) {
  std::atomic<int> woken{0};
  Lane lane([&] { ++woken; }, [](const std::string&) {});
  lane.post("counted", [](Ticket& ticket) -> Lane::Result {
    for (int k = 1; k <= 1000; ++k) ticket.report(0.0005 * k);
    return {};
  });
  lane.wait_idle();
  EXPECT_GE(woken, 48);  // half of the way, a hundredth at a time
  EXPECT_LE(woken, 52);
}

TEST(Lines, BreakBetweenWordsButNotInsideNumbersNorBeforeTheirUnit) {
  ImFontAtlas atlas;
  ImFont* font = atlas.AddFontDefault();
  unsigned char* pixels = nullptr;
  int wide = 0;
  int high = 0;
  atlas.GetTexDataAsAlpha8(&pixels, &wide, &high);
  const float letter = font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, "x").x;  // all alike in this font
  const auto lines = [&](const char* words, int letters) { return broken(font, words, (static_cast<float>(letters) + 0.5F) * letter); };
  EXPECT_EQ(lines("interval -3.3 to -2.7", 11), "interval\n-3.3 to\n-2.7");
  EXPECT_EQ(lines("down by 0.110 s, 95 % sure", 13), "down by\n0.110 s, 95 %\nsure");
  EXPECT_EQ(lines("down by 0.110 s", 13), "down by\n0.110 s");
  EXPECT_EQ(lines("a\n\nb", 13), "a\n\nb");
  EXPECT_EQ(lines("see /tmp/long-name.wav now", 8), "see\n/tmp/lon\ng-name.w\nav now");
  EXPECT_EQ(lines("", 8), "");
  EXPECT_EQ(lines("d\xC3\xA9j\xC3\xA0vu", 3), "d\xC3\xA9j\n\xC3\xA0vu") << "never inside a letter";
}

// Binomial, chance 1/2: P(7 or more of 8) = 9/256 = 3.5 %.
TEST(BlindTest, CountsAndSaysWhatGuessingGives) {
  BlindTest test(7);
  for (int k = 0; k < 7; ++k) test.answer(test.hidden_is_second());
  test.answer(!test.hidden_is_second());
  EXPECT_EQ(test.right(), 7U);
  EXPECT_NE(test.score().find("3.5 %"), std::string::npos) << test.score();
}

// Binomial, chance 1/2: P(12 or more of 16) = 2517/65536 = 3.8 %, P(11 or more) = 6885/65536 = 10.5 %; P(5 of 5) = 3.1 %, P(4 of 4) = 6.3 %.
TEST(BlindTest, KnowsWhatGuessingSeldomReaches) {
  EXPECT_EQ(beyond_guessing(16), 12U);
  EXPECT_EQ(beyond_guessing(5), 5U);
  EXPECT_EQ(beyond_guessing(4), std::nullopt);
}

TEST(BlindTest, KeepsEveryRoundAndDrawsThem) {
  BlindTest test(7);
  const bool first = test.hidden_is_second();
  test.answer(first);
  const bool next = test.hidden_is_second();
  test.answer(!next);
  ASSERT_EQ(test.log().size(), 2U);
  EXPECT_EQ(test.log()[0].was_second, first);
  EXPECT_TRUE(test.log()[0].right());
  EXPECT_EQ(test.log()[1].was_second, next);
  EXPECT_FALSE(test.log()[1].right());
  const auto figure = score_figure(test);
  const auto& right = std::get<plot::Trace>(figure.panels.at(0).series.back());
  EXPECT_EQ(right.y, (std::vector<double>{0.0, 1.0, 1.0}));
  EXPECT_EQ(figure.panels[0].x.high, 16.0);
  test.start_over();
  EXPECT_TRUE(test.log().empty());
}

TEST(Range, TheMetersWordsSayWhatToDo) {
  intake::MeterReading reading;
  EXPECT_TRUE(chain_words(reading, {}).trouble);  // no sound at all
  reading.rms_db = -70.0;
  reading.floor_db = -80.0;
  EXPECT_FALSE(chain_words(reading, -12.0).trouble);
  EXPECT_TRUE(chain_words(reading, -31.0).trouble);  // faint, as the chain check has it
  reading.clipped = true;
  EXPECT_TRUE(chain_words(reading, -12.0).trouble);
}

}  // namespace
}  // namespace ringfall::desk
