// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/nearest.h"

#include <gtest/gtest.h>

namespace ringfall {
namespace {

TEST(Nearest, SuggestsWhatIsNearAndListsOtherwise) {
  EXPECT_EQ(did_you_mean("humm", {"hum", "ping"}), "; did you mean 'hum'?");
  EXPECT_EQ(did_you_mean("rubber plugg", {"bare", "rubber plug"}), "; did you mean 'rubber plug'?");
  EXPECT_EQ(did_you_mean("loudness", {"hum", "ping"}), "; there are: hum, ping");
  EXPECT_EQ(did_you_mean("x", {}), "; there is none");
}

}  // namespace
}  // namespace ringfall
