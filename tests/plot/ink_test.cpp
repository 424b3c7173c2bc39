// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/ink.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <string>

#include "plot/colour_measures.h"

namespace ringfall::plot {
namespace {

// WCAG 2.1, definition of "contrast ratio": black on white is 21:1, equal colours 1:1. For grey 119 worked by
// hand from the definition: L = ((119/255 + 0.055)/1.055)^2.4 = 0.1845, 1.05 / 0.2345 = 4.478.
TEST(InkTest, ContrastRatioFollowsItsDefinition) {
  EXPECT_NEAR(contrast_ratio({0, 0, 0}, {255, 255, 255}), 21.0, 1e-9);
  EXPECT_NEAR(contrast_ratio({9, 9, 9}, {9, 9, 9}), 1.0, 1e-12);
  EXPECT_NEAR(contrast_ratio({119, 119, 119}, {255, 255, 255}), 4.478, 0.001);
}

// WCAG 2.1: 4.5 for text (1.4.3, level AA), 3 for graphics that matter (1.4.11).
TEST(InkTest, TextAndTracesStandOutFromThePaper) {
  for (const Theme theme : {Theme::light, Theme::dark}) {
    const Colour paper = colour_of(Ink::paper, theme);
    for (const Ink ink : {Ink::text, Ink::muted, Ink::accent, Ink::warning}) {
      EXPECT_GE(contrast_ratio(colour_of(ink, theme), paper), 4.5) << ink_name(ink);
    }
    for (int i = 0; i < kTraces; ++i) EXPECT_GE(contrast_ratio(colour_of(trace_ink(i), theme), paper), 3.0) << i;
    // Words and curves also stand on shaded spans.
    const Colour fill = colour_of(Ink::fill, theme);
    EXPECT_GE(contrast_ratio(colour_of(Ink::muted, theme), fill), 4.5);
    for (int i = 0; i < kTraces; ++i) EXPECT_GE(contrast_ratio(colour_of(trace_ink(i), theme), fill), 2.5) << i;
  }
}

// The grid helps and must not compete: well below what text needs.
TEST(InkTest, GridIsFaint) {
  for (const Theme theme : {Theme::light, Theme::dark}) {
    EXPECT_LT(contrast_ratio(colour_of(Ink::grid, theme), colour_of(Ink::paper, theme)), 1.5);
  }
}

// Colour difference CIE 1976; 10 is several times the just noticeable 2.3 (Mahy et al. 1994, from memory).
TEST(InkTest, FirstFourTracesStayApartWithoutACone) {
  for (const Theme theme : {Theme::light, Theme::dark}) {
    for (const Vision vision : {Vision::all, Vision::no_l_cone, Vision::no_m_cone}) {
      for (int a = 0; a < 4; ++a) {
        for (int b = a + 1; b < 4; ++b) {
          EXPECT_GE(colour_difference(seen_with(vision, colour_of(trace_ink(a), theme)),
                                      seen_with(vision, colour_of(trace_ink(b), theme))),
                    10.0)
              << a << " " << b << " vision " << static_cast<int>(vision) << " theme " << static_cast<int>(theme);
        }
      }
    }
  }
}

TEST(InkTest, CuesRepeatTheColour) {
  std::set<Marker> markers;
  std::set<Dash> dashes;
  for (int i = 0; i < kTraces; ++i) markers.insert(marker_of(trace_ink(i)));
  for (int i = 0; i < 4; ++i) dashes.insert(dash_of(trace_ink(i)));
  EXPECT_EQ(markers.size(), 6u);
  EXPECT_EQ(dashes.size(), 4u);
  EXPECT_EQ(trace_ink(kTraces), Ink::trace1);
  EXPECT_STREQ(ink_name(Ink::trace6), "trace6");
}

}  // namespace
}  // namespace ringfall::plot
