// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/local_time.h"

#include <gtest/gtest.h>
#include <stdlib.h>
#include <time.h>

#include <optional>

namespace ringfall {
namespace {

/// This program's zone, POSIX style ("TZ", XBD 8.3: "ABC-2" is two hours east of UTC), for as long as it lives.
class Zone {
 public:
  explicit Zone(const char* zone) {
    if (const char* now = getenv("TZ")) before_ = now;
    setenv("TZ", zone, 1);
    tzset();
  }
  ~Zone() {
    if (before_) setenv("TZ", before_->c_str(), 1);
    else unsetenv("TZ");
    tzset();
  }

 private:
  std::optional<std::string> before_;
};

// By hand: 22:30 UTC is half past midnight of the next day two hours east, 17:30 five hours west.
TEST(LocalTime, IsOfThePlaceWhereTheClockHangs) {
  const Zone east("ABC-2");
  EXPECT_EQ(local_time_text("2026-10-03T22:30:00Z"), "2026-10-04 00:30");
  EXPECT_EQ(local_day_text("2026-12-31T22:30:00Z"), "2027-01-01");
  const Zone west("ABC5");
  EXPECT_EQ(local_time_text("2026-10-03T22:30:00Z"), "2026-10-03 17:30");
}

TEST(LocalTime, WhatIsNoTimeStaysAsItIs) {
  EXPECT_EQ(local_time_text(""), "");
  EXPECT_EQ(local_time_text("on Tuesday"), "on Tuesday");
  EXPECT_EQ(local_time_text("2026-10-03T22:30:00Zulu"), "2026-10-03T22:30:00Zulu");
}

}  // namespace
}  // namespace ringfall
