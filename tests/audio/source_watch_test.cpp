// SPDX-License-Identifier: GPL-3.0-or-later
// Invented clocks: what the watch sees is given, so nothing here depends on real time.
#include "audio/source_watch.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace ringfall::audio {
namespace {

using namespace std::chrono_literals;
using Duration = SourceWatch::Duration;
using Seconds = std::chrono::duration<double>;

constexpr double kRate_hz = 48000.0;
constexpr auto kOpened = Duration(100s);

/// Looks every 10 ms from `from` to `to` at a source that has given `frames(t)` by then and calls back all the time.
void watch(SourceWatch& watch, double from_s, double to_s, const std::function<double(double)>& sound_s) {
  for (double t = from_s; t < to_s; t += 0.010) {
    const auto now = kOpened + std::chrono::duration_cast<Duration>(Seconds(t));
    watch.look(now, now, static_cast<std::int64_t>(sound_s(t) * kRate_hz), false);
  }
}

TEST(SourceWatch, SilenceIsAStallThenALoss) {
  SourceWatch watch(kRate_hz, kOpened);
  const auto heard = kOpened + 1s;
  EXPECT_EQ(watch.look(heard + 499ms, heard, 48000, false), SourcePulse::alive);
  EXPECT_EQ(watch.look(heard + 501ms, heard, 48000, false), SourcePulse::stalled);
  EXPECT_EQ(watch.look(heard + 1199ms, heard, 48000, false), SourcePulse::stalled);
  EXPECT_EQ(watch.look(heard + 1201ms, heard, 48000, false), SourcePulse::lost);  // well within 2 s
}

TEST(SourceWatch, TheSystemsWordIsTakenAtOnce) {
  SourceWatch watch(kRate_hz, kOpened);
  EXPECT_EQ(watch.look(kOpened + 1s, kOpened + 1s, 48000, true), SourcePulse::lost);
}

TEST(SourceWatch, TheStartMayTakeLonger) {
  SourceWatch watch(kRate_hz, kOpened);
  EXPECT_EQ(watch.look(kOpened + 3s, Duration{}, 0, false), SourcePulse::alive);
  EXPECT_EQ(watch.look(kOpened + 4100ms, Duration{}, 0, false), SourcePulse::lost);
}

TEST(SourceWatch, SteadySoundIsWhole) {
  SourceWatch steady(kRate_hz, kOpened);
  // In bursts of 80 ms, and a card that runs 0.05 % slow, over half an hour.
  watch(steady, 0.01, 1800.0, [](double t) { return 0.9995 * (t - std::fmod(t, 0.080)); });
  EXPECT_DOUBLE_EQ(steady.missing_s(), 0.0);
  ASSERT_TRUE(steady.clock_rate_hz());
  EXPECT_NEAR(*steady.clock_rate_hz(), 0.9995 * kRate_hz, 2.0);
}

TEST(SourceWatch, AShortStallThatIsMadeUpForLosesNothing) {
  SourceWatch stalled(kRate_hz, kOpened);
  watch(stalled, 0.01, 20.0, [](double t) { return t > 10.0 && t < 10.9 ? 10.0 : t; });
  EXPECT_DOUBLE_EQ(stalled.missing_s(), 0.0);
}

TEST(SourceWatch, SoundThatNeverCameIsFoundByTheClock) {
  SourceWatch suspended(kRate_hz, kOpened);
  watch(suspended, 0.01, 20.0, [](double t) { return t < 10.0 ? t : t < 10.8 ? 10.0 : t - 0.8; });
  EXPECT_NEAR(suspended.missing_s(), 0.8, 0.05);  // looks and bursts are 10 ms apart
}

TEST(SourceWatch, AWrongRateShows) {
  SourceWatch wrong(kRate_hz, kOpened);
  EXPECT_FALSE(wrong.clock_rate_hz());
  watch(wrong, 0.01, 15.0, [](double t) { return t * 44100.0 / 48000.0; });
  ASSERT_TRUE(wrong.clock_rate_hz());
  EXPECT_NEAR(*wrong.clock_rate_hz(), 44100.0, 100.0);
}

}  // namespace
}  // namespace ringfall::audio
