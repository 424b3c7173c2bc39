// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/text.h"

#include <gtest/gtest.h>

namespace ringfall {
namespace {

// Every expected text here is rounded by hand.

TEST(Text, PlainNumber) {
  EXPECT_EQ(plain_number(73.449, 1), "73.4");
  EXPECT_EQ(plain_number(-3.16, 1), "-3.2");
  EXPECT_EQ(plain_number(12.0, 0), "12");
  EXPECT_EQ(plain_number(std::nullopt, 1), "-");
}

TEST(Text, NoNegativeZero) {
  EXPECT_EQ(plain_number(-0.04, 1), "0.0");
  EXPECT_EQ(plain_number(-0.0, 0), "0");
  EXPECT_EQ(plain_number(-0.06, 1), "-0.1");
}

TEST(Text, WithUnit) {
  EXPECT_EQ(with_unit(73.449, "dB", 1), "73.4 dB");
  EXPECT_EQ(with_unit(std::nullopt, "dB", 1), "-");
}

TEST(Text, FrequencyHasThreeFigures) {
  EXPECT_EQ(frequency_text(95.23), "95.2 Hz");
  EXPECT_EQ(frequency_text(9.994), "9.99 Hz");
  EXPECT_EQ(frequency_text(9.996), "10.0 Hz");
  EXPECT_EQ(frequency_text(99.94), "99.9 Hz");
  EXPECT_EQ(frequency_text(99.96), "100 Hz");
  EXPECT_EQ(frequency_text(999.4), "999 Hz");
  EXPECT_EQ(frequency_text(999.6), "1.00 kHz");
  EXPECT_EQ(frequency_text(1449.0), "1.45 kHz");
  EXPECT_EQ(frequency_text(16000.0), "16.0 kHz");
}

TEST(Text, DurationHasThreeFigures) {
  EXPECT_EQ(duration_text(0.0083), "8.30 ms");
  EXPECT_EQ(duration_text(0.250), "250 ms");
  EXPECT_EQ(duration_text(0.9994), "999 ms");
  EXPECT_EQ(duration_text(0.9996), "1.00 s");
  EXPECT_EQ(duration_text(1.349), "1.35 s");
}

TEST(Text, ClockRoundsAndCarries) {
  EXPECT_EQ(clock_text(0.0), "0:00.00");
  EXPECT_EQ(clock_text(3.412), "0:03.41");
  EXPECT_EQ(clock_text(59.996), "1:00.00");
  EXPECT_EQ(clock_text(3599.996), "1:00:00.00");
  EXPECT_EQ(clock_text(3723.41), "1:02:03.41");
}

TEST(Text, OneIsNotMany) {
  EXPECT_EQ(counted(1, "shot"), "1 shot");
  EXPECT_EQ(counted(0, "shot"), "0 shots");
  EXPECT_EQ(counted(12, "shot"), "12 shots");
}

TEST(Text, ClockBeforeTheStart) {
  EXPECT_EQ(clock_text(-0.5), "-0:00.50");
  EXPECT_EQ(clock_text(-61.25), "-1:01.25");
  EXPECT_EQ(clock_text(-0.001), "0:00.00");
}

// POSIX.1-2017, Shell Command Language 2.2.2: nothing but a single quote has a meaning between single quotes.
TEST(Text, AWordForTheShell) {
  EXPECT_EQ(shell_word("book.ringfall"), "book.ringfall");
  EXPECT_EQ(shell_word("a b/my log.ringfall"), "'a b/my log.ringfall'");
  EXPECT_EQ(shell_word("it's"), "'it'\\''s'");
  EXPECT_EQ(shell_word("$HOME"), "'$HOME'");
  EXPECT_EQ(shell_word(""), "''");
}

}  // namespace
}  // namespace ringfall
