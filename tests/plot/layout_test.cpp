// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/layout.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "base/failure.h"
#include "plot/canvas.h"
#include "plot/example_figures.h"
#include "plot/text_width.h"

namespace ringfall::plot {
namespace {

const Measure kMeasure = text_width;

std::vector<Text> texts_of(const Picture& picture) {
  std::vector<Text> texts;
  for (const Mark& mark : picture.marks) {
    if (const auto* text = std::get_if<Text>(&mark)) texts.push_back(*text);
  }
  return texts;
}

bool says(const Picture& picture, const std::string& words) {
  for (const Text& text : texts_of(picture)) {
    if (text.words == words) return true;
  }
  return false;
}

/// All words on the page, none over another.
void expect_readable(const Picture& picture, const std::string& what) {
  const std::vector<Text> texts = texts_of(picture);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const Rect box = text_box(texts[i], kMeasure);
    EXPECT_TRUE(inside(box, {0.0, 0.0, picture.width_pt, picture.height_pt})) << what << ": " << texts[i].words;
    for (std::size_t k = 0; k < i; ++k) {
      EXPECT_FALSE(overlap(box, text_box(texts[k], kMeasure))) << what << ": " << texts[i].words << " over " << texts[k].words;
    }
  }
}

Figure one_panel(Axis x, Axis y, std::vector<Series> series) {
  Figure figure;
  Panel panel;
  panel.x = std::move(x);
  panel.y = std::move(y);
  panel.series = std::move(series);
  figure.panels.push_back(panel);
  return figure;
}

TEST(LayoutTest, ExamplesAreReadable) {
  for (const Example& example : example_figures()) expect_readable(layout(example.figure).picture, example.name);
}

TEST(LayoutTest, LabelsStayApartAndOnThePageForAnyRangeAndSize) {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> part(0.0, 1.0), power(-7.0, 7.0);
  for (int i = 0; i < 1500; ++i) {
    Axis x, y;
    x.quantity = "Time since the loud edge";
    y.quantity = "Level";
    y.unit = i % 3 ? "dB" : "Hz";
    for (Axis* axis : {&x, &y}) {
      axis->scale = part(random) < 0.4 ? Scale::logarithmic : Scale::linear;
      axis->low = std::pow(10.0, power(random)) * (axis->scale == Scale::linear && part(random) < 0.5 ? -1.0 : 1.0);
      axis->high = axis->scale == Scale::linear ? *axis->low + std::pow(10.0, power(random)) : *axis->low * std::pow(10.0, 0.05 + 6.0 * part(random));
    }
    Figure figure = one_panel(x, y, {Dots{{1.0}, {1.0}, {}, {}}});
    figure.panels[0].title = "A panel";
    figure.width_pt = 160.0 + 500.0 * part(random);
    figure.height_pt = 110.0 + 400.0 * part(random);
    expect_readable(layout(figure).picture, "figure " + std::to_string(i));
  }
}

TEST(LayoutTest, LongNamesAreShortenedNotCut) {
  const std::string name = "an extraordinarily long name of a set-up with a damper, a silencer and three weights";
  Intervals bars;
  bars.intervals = {{0, -1, 0, 1}, {1, -1, 0, 1}};
  Figure figure = one_panel(level_axis(name, name), category_axis("", {name, name + "2"}), {bars, Rule{Along::x, 0.2, name}, Rule{Along::x, 0.9, name}});
  figure.title = name + name + name + name;
  figure.caption = name + name + name + name;
  figure.panels[0].title = name + name;
  figure.width_pt = 260.0;
  expect_readable(layout(figure).picture, "long names");
}

TEST(LayoutTest, NoDataIsSaid) {
  const double nan = std::nan("");
  EXPECT_TRUE(says(layout(one_panel(time_axis_s(), level_axis("Level", ""), {})).picture, "no data"));
  EXPECT_TRUE(says(layout(one_panel(time_axis_s(), level_axis("Level", ""), {Trace{{0.0, 1.0}, {nan, nan}}})).picture, "no data"));
  EXPECT_TRUE(says(layout(one_panel(time_axis_s(), level_axis("Level", ""), {Trace{}, Dots{}, LevelMap{}, Notes{}, Intervals{}})).picture, "no data"));
  EXPECT_FALSE(says(layout(one_panel(time_axis_s(), level_axis("Level", ""), {Trace{{0.0, 1.0}, {1.0, 2.0}}})).picture, "no data"));
  EXPECT_TRUE(layout(Figure{}).picture.marks.empty());
}

TEST(LayoutTest, ValuesWithoutAPlaceAreCountedAndSaid) {
  Axis level = level_axis("Power", "");
  level.scale = Scale::logarithmic;
  const double inf = std::numeric_limits<double>::infinity();
  const LaidOut laid = layout(one_panel(time_axis_s(), level, {Trace{{0, 1, 2, 3, 4, 5}, {1.0, 0.0, -2.0, 10.0, inf, 5.0}}}));
  ASSERT_EQ(laid.findings.size(), 1u);
  EXPECT_EQ(laid.findings[0].code, "values_not_drawn");
  EXPECT_NE(laid.findings[0].sentence.find("Power: 3 values"), std::string::npos) << laid.findings[0].sentence;
  EXPECT_GT(laid.frames.at(0).y.low, 0.0);
  EXPECT_FALSE(says(laid.picture, "no data"));
  EXPECT_TRUE(layout(one_panel(time_axis_s(), level, {Trace{{0, 1}, {1.0, 2.0}}})).findings.empty());
}

TEST(LayoutTest, OddDataDoesNotBreakIt) {
  const double inf = std::numeric_limits<double>::infinity();
  const double nan = std::nan("");
  const std::vector<std::vector<double>> data = {{}, {1.0}, {nan}, {inf, -inf}, {5.0, 5.0}, {0.0, 0.0}, {1e308, -1e308}, {1e-320, 2e-320}, {1e9, 1e9 + 1e-7}};
  for (const Scale scale : {Scale::linear, Scale::logarithmic}) {
    for (const auto& values : data) {
      Axis axis;
      axis.scale = scale;
      Intervals bars;
      for (const double v : values) bars.intervals.push_back({0.0, v, v, v});
      for (const Form form : {Form::line, Form::step, Form::stem}) {
        Trace trace{values, values};
        trace.form = form;
        expect_readable(layout(one_panel(axis, axis, {trace, Dots{values, values, values, values}, bars})).picture, "odd");
      }
      for (const double v : values) {
        expect_readable(layout(one_panel(axis, axis, {Rule{Along::x, v, "x"}, Rule{Along::y, v, "y"}, Span{Along::x, v, 1.0, "s"},
                                                      Fit{{v, 1.0}, {2.0, v}, "fit"}, Notes{{{{v, v}, "note"}}}})).picture, "odd marks");
      }
    }
  }
  EXPECT_THROW(layout(one_panel(Axis{}, Axis{}, {Trace{{1.0}, {}}})), InternalError);
  EXPECT_THROW(layout(one_panel(Axis{}, Axis{}, {LevelMap{2, 2, {1.0}}})), InternalError);
}

TEST(LayoutTest, FramesMapDataWhereItIsDrawn) {
  const LaidOut laid = layout(one_panel(time_axis_s(), level_axis("Level", ""), {Dots{{0.25, 0.75}, {-10.0, -20.0}, {}, {}}}));
  std::size_t found = 0;
  for (const Mark& mark : laid.picture.marks) {
    const auto* dot = std::get_if<Filled>(&mark);
    if (!dot || dot->ink != Ink::trace1) continue;
    double x = 0.0, y = 0.0;
    for (const Point& p : dot->outline) {
      x += p.x / static_cast<double>(dot->outline.size());
      y += p.y / static_cast<double>(dot->outline.size());
    }
    const Point data = laid.frames.at(0).to_data({x, y});
    EXPECT_NEAR(data.x, found == 0 ? 0.25 : 0.75, 1e-6);
    EXPECT_NEAR(data.y, found == 0 ? -10.0 : -20.0, 1e-6);
    ++found;
  }
  EXPECT_EQ(found, 2u);
}

TEST(LayoutTest, PanelsOfAColumnShareTheirXAxis) {
  Figure figure = one_panel(time_axis_s(), level_axis("Level", ""), {Trace{{0.0, 1.0}, {0.0, 1.0}}});
  figure.panels.push_back(figure.panels[0]);
  figure.panels[1].series = {Trace{{-1.0, 0.5}, {1000.0, 20000.0}}};
  figure.shared_x = true;
  const LaidOut laid = layout(figure);
  EXPECT_EQ(laid.frames[0].x.low, -1.0);
  EXPECT_EQ(laid.frames[0].x.high, 1.0);
  EXPECT_EQ(laid.frames[1].x.low, -1.0);
  EXPECT_EQ(laid.frames[0].place.left, laid.frames[1].place.left);
  EXPECT_EQ(laid.frames[0].place.right, laid.frames[1].place.right);
}

TEST(LayoutTest, MeasureIsAllItAsks) {
  const Figure figure = example_figures().front().figure;
  const LaidOut narrow = layout(figure, [](std::string_view text, double size) { return 0.3 * size * static_cast<double>(text.size()); });
  EXPECT_NE(narrow.frames[0].place.left, layout(figure).frames[0].place.left);
}

}  // namespace
}  // namespace ringfall::plot
