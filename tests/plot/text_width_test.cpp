// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/text_width.h"

#include <cairo.h>
#include <gtest/gtest.h>

#include "plot/text_fit.h"

namespace ringfall::plot {
namespace {

double cairo_width(const std::string& text, double size) {
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 1, 1);
  cairo_t* cairo = cairo_create(surface);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_set_font_options(cairo, options);
  cairo_select_font_face(cairo, kFontFamily, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(cairo, size);
  cairo_text_extents_t extents;
  cairo_text_extents(cairo, text.c_str(), &extents);
  cairo_font_options_destroy(options);
  cairo_destroy(cairo);
  cairo_surface_destroy(surface);
  return extents.x_advance;
}

// Reference: Cairo with the font itself (Debian's fonts-dejavu-core 2.37), without hinting.
TEST(TextWidthTest, AgreesWithTheFont) {
  for (const std::string text : {"Level (dB re full scale)", "0123456789.,-+%", "\xc2\xb1" "1 dB, 20 \xc2\xb5Pa", "\xe2\x88\x92" "40",
                                 "Gr\xc3\xb6\xc3\x9f" "e \xc5\xbd\xce\xa9 \xe2\x80\xa6"}) {
    EXPECT_NEAR(text_width(text, 100.0), cairo_width(text, 100.0), 0.6) << text;
  }
  EXPECT_DOUBLE_EQ(text_width("", 8.0), 0.0);
}

TEST(TextWidthTest, BrokenBytesAndControlsBecomeHarmless) {
  EXPECT_EQ(clean_text("a\xff" "b"), "a\xef\xbf\xbd" "b");
  EXPECT_EQ(clean_text("a\nb\tc"), "a b c");
  // A cut sequence, an overlong slash, a surrogate half (RFC 3629, section 3 and 4).
  EXPECT_EQ(characters_of("\xe2\x88").front(), U'\xfffd');
  EXPECT_EQ(characters_of("\xc0\xaf").front(), U'\xfffd');
  EXPECT_EQ(characters_of("\xe0\x80\xaf").front(), U'\xfffd');
  EXPECT_EQ(characters_of("\xed\xa0\x80").front(), U'\xfffd');
  const std::string whole = "\xc2\xb5 \xe2\x82\xac \xf0\x9d\x84\x9e";
  EXPECT_EQ(clean_text(whole), whole);
  EXPECT_EQ(characters_of(whole).size(), 5u);
}

TEST(TextFitTest, ShortensWithAnEllipsis) {
  EXPECT_EQ(shortened("short", 100.0, 8.0, text_width), "short");
  const std::string cut = shortened("a very long name of a set-up", 60.0, 8.0, text_width);
  EXPECT_LE(text_width(cut, 8.0), 60.0);
  EXPECT_TRUE(cut.ends_with("\xe2\x80\xa6"));
  EXPECT_TRUE(cut.starts_with("a very"));
  EXPECT_EQ(shortened("wide", 2.0, 8.0, text_width), "");
}

TEST(TextFitTest, WrapsAtSpaces) {
  const auto lines = wrapped("rubber damper on the upper limb and so on", 70.0, 8.0, 2, text_width);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(lines[0], "rubber damper");
  EXPECT_TRUE(lines[1].ends_with("\xe2\x80\xa6"));
  for (const auto& line : lines) EXPECT_LE(text_width(line, 8.0), 70.0);
  EXPECT_TRUE(wrapped("", 70.0, 8.0, 2, text_width).empty());
}

}  // namespace
}  // namespace ringfall::plot
