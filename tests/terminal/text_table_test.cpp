// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/text_table.h"

#include <gtest/gtest.h>

namespace ringfall::terminal {
namespace {

// Expected texts by hand.
TEST(Wrapped, BreaksAtBlanks) {
  EXPECT_EQ(wrapped("one two three", 7, 2), "one two\n  three");
  EXPECT_EQ(wrapped("short", 40, 2), "short");
}

TEST(Wrapped, KeepsANumberWithItsUnit) {
  EXPECT_EQ(wrapped("it lasts 169 ms longer", 12, 0), "it lasts\n169 ms\nlonger");
  EXPECT_EQ(wrapped("up to 95.2 Hz, then", 10, 0), "up to\n95.2 Hz,\nthen");
  EXPECT_EQ(wrapped("shots 3 more", 7, 0), "shots 3\nmore");
}

}  // namespace
}  // namespace ringfall::terminal
