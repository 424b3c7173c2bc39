// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "base/screen_text.h"

namespace ringfall {
namespace {

// C0 and C1: ISO/IEC 6429; the direction marks: Unicode Standard Annex 9, 2.1 to 2.6; what is no UTF-8: RFC 3629, 3 and 4.
TEST(ScreenText, WhatSteersIsWrittenOut) {
  EXPECT_EQ(screen_text("bare\x1b[31m"), "bare\\x1b[31m");
  EXPECT_EQ(screen_text("a\rb\a\x7f"), "a\\x0db\\x07\\x7f");
  EXPECT_EQ(screen_text("\xC2\x9B" "31m"), "\\u009b31m");
  EXPECT_EQ(screen_text("a\xE2\x80\xAE" "b"), "a\\u202eb");
  EXPECT_EQ(screen_text("\xE2\x81\xA6\xE2\x81\xA9\xD8\x9C\xE2\x80\xA8"), "\\u2066\\u2069\\u061c\\u2028");
  EXPECT_EQ(screen_text(std::string_view("\0", 1)), "\\x00");
}

TEST(ScreenText, BytesThatAreNoLetterAreWrittenOut) {
  EXPECT_EQ(screen_text("\x9B" "31m"), "\\x9b31m");            // C1 in one byte
  EXPECT_EQ(screen_text("\xC0\x9B"), "\\xc0\\x9b");            // longer than needed
  EXPECT_EQ(screen_text("\xE0\x82\x9B"), "\\xe0\\x82\\x9b");
  EXPECT_EQ(screen_text("\xED\xA0\x80"), "\\xed\\xa0\\x80");   // half a surrogate pair
  EXPECT_EQ(screen_text("\xF4\x90\x80\x80"), "\\xf4\\x90\\x80\\x80");
  EXPECT_EQ(screen_text("x\xE2\x80"), "x\\xe2\\x80");
}

TEST(ScreenText, LettersOfAllTonguesStay) {
  const std::string words = "Sehne wei\xC3\x9F, \xE5\xBC\x93, \xD7\xA7\xD7\xA9\xD7\xAA, \xF0\x9F\x8F\xB9\n\ttab";
  EXPECT_EQ(screen_text(words), words);
  EXPECT_EQ(screen_text("a\n\tb", false), "a\\x0a\\x09b");
}

// RFC 8259, 7: a character may be written as \uXXXX, and is the same then.
TEST(ScreenText, JsonStaysTheSameValue) {
  EXPECT_EQ(screen_json("{\"a\": \"x\xC2\x9B\x7F\xE2\x80\xAE\"}"), "{\"a\": \"x\\u009b\\u007f\\u202e\"}");
  EXPECT_EQ(screen_json("{\"a\": \"wei\xC3\x9F\"}"), "{\"a\": \"wei\xC3\x9F\"}");
}

}  // namespace
}  // namespace ringfall
