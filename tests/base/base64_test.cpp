// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/base64.h"

#include <gtest/gtest.h>

namespace ringfall {
namespace {

// RFC 4648, section 10 (test vectors).
TEST(Base64, GivesTheTestVectorsOfTheStandard) {
  EXPECT_EQ(base64_text(""), "");
  EXPECT_EQ(base64_text("f"), "Zg==");
  EXPECT_EQ(base64_text("fo"), "Zm8=");
  EXPECT_EQ(base64_text("foo"), "Zm9v");
  EXPECT_EQ(base64_text("foob"), "Zm9vYg==");
  EXPECT_EQ(base64_text("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64_text("foobar"), "Zm9vYmFy");
}

// By hand: three bytes of ones are four times the last letter of RFC 4648 table 1.
TEST(Base64, TakesBytesAboveAscii) { EXPECT_EQ(base64_text("\xff\xff\xff"), "////"); }

}  // namespace
}  // namespace ringfall
