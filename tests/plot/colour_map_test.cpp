// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/colour_map.h"

#include <gtest/gtest.h>

#include <cmath>

#include "plot/colour_measures.h"

namespace ringfall::plot {
namespace {

std::uint8_t step(int i) { return static_cast<std::uint8_t>(i); }

// Our own demand (docs/drawing.md): 84 steps of lightness over the ramp, the same everywhere. Eight bits a
// channel round L* by up to about 0.4.
TEST(ColourMapTest, LightnessRunsEvenly) {
  for (const Theme theme : {Theme::light, Theme::dark}) {
    const double sign = theme == Theme::light ? -1.0 : 1.0;
    const double first = lightness(level_colour(1, theme));
    EXPECT_NEAR(first, theme == Theme::light ? 98.0 : 12.0, 0.5);
    for (int i = 1; i <= 255; ++i) {
      EXPECT_NEAR(lightness(level_colour(step(i), theme)), first + sign * 84.0 * (i - 1) / 254.0, 0.6) << i;
    }
  }
}

// An eye without a cone must read the same order; eight steps of 255 are 2.6 dB of an 80 dB map.
TEST(ColourMapTest, OrderSurvivesWithoutACone) {
  for (const Theme theme : {Theme::light, Theme::dark}) {
    const double sign = theme == Theme::light ? -1.0 : 1.0;
    for (const Vision vision : {Vision::no_l_cone, Vision::no_m_cone}) {
      for (int i = 1; i + 8 <= 255; ++i) {
        const double here = lightness(seen_with(vision, level_colour(step(i), theme)));
        const double next = lightness(seen_with(vision, level_colour(step(i + 8), theme)));
        EXPECT_GT(sign * (next - here), 0.0) << i;
      }
    }
  }
}

TEST(ColourMapTest, NothingIsPaper) {
  EXPECT_EQ(level_colour(0, Theme::light), colour_of(Ink::paper, Theme::light));
  EXPECT_EQ(level_colour(0, Theme::dark), colour_of(Ink::paper, Theme::dark));
}

}  // namespace
}  // namespace ringfall::plot
