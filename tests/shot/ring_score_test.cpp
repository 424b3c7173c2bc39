// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/ring_score.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/failure.h"

namespace ringfall::shot {
namespace {

const MeasureSettings kSettings;
constexpr double kListened_s = 0.334;

Tone hum(double level_db, double ring_s, double f = 100.0) { return {f, level_db, ring_s, 0.0, ToneFamily::hum}; }

TailTones listened(double tail_end_s = kListened_s, double faintest_db = 20.0) {
  TailTones heard;
  heard.tail_end_s = tail_end_s;
  heard.faintest_hum_db = faintest_db;
  heard.faintest_ping_db = faintest_db;
  return heard;
}

/// Closed form for one tone: 2^((L-40)/10) falls by half every 10 dB, so the integral up to te is
/// N0 T/(6 ln 2) (1 - 2^(-6 te/T)) - te/2 with te = min(horizon, (L-30) T/60). Worked out from the definition.
double closed_form(double level_db, double ring_s, double horizon_s) {
  if (level_db <= 30.0) return 0.0;
  const double te = std::min(horizon_s, (level_db - 30.0) * ring_s / 60.0);
  const double n0 = std::exp2((level_db - 40.0) / 10.0);
  return n0 * ring_s / (6.0 * std::log(2.0)) * (1.0 - std::exp2(-6.0 * te / ring_s)) - 0.5 * te;
}

TEST(RingScore, OneToneAgreesWithTheClosedForm) {
  for (double level : {31.0, 40.0, 55.0, 71.0, 95.0})
    for (double ring : {0.03, 0.1, 0.25, 0.7, 2.0, 20.0}) {
      const Tone tones[] = {hum(level, ring)};
      const double exact = closed_form(level, ring, 0.470);  // 500 ms less the 30 ms that hum starts after
      EXPECT_NEAR(ring_amount(tones, ToneFamily::hum, kSettings), exact, 1e-5 * exact + 1e-12) << level << ' ' << ring;
    }
}

TEST(RingScore, PingStartsEarlier) {
  const Tone tones[] = {{2000.0, 70.0, 5.0, 0.0, ToneFamily::ping}};
  const double exact = closed_form(70.0, 5.0, 0.485);
  EXPECT_NEAR(ring_amount(tones, ToneFamily::ping, kSettings), exact, 1e-5 * exact);
  EXPECT_EQ(ring_amount(tones, ToneFamily::hum, kSettings), 0.0);
}

TEST(RingScore, ScaleHasItsFixedPoints) {
  EXPECT_EQ(score_of(0.0), 0.0);
  EXPECT_DOUBLE_EQ(score_of(4.0), 10.0);
  EXPECT_EQ(score_of(40.0), 10.0);
  EXPECT_NEAR(score_of(0.02), 1.30701, 1e-5);  // 10 / log2(201), worked out by hand
  // trade practice table: N 0.195 reads 4.5, N 1.67 reads 8.4 (worked out there from the same formula)
  EXPECT_NEAR(score_of(0.195), 4.5, 0.05);
  EXPECT_NEAR(score_of(1.67), 8.4, 0.05);
}

TEST(RingScore, EqualTonesAddAsPowers) {
  const Tone two[] = {hum(60.0, 0.4, 100.0), hum(60.0, 0.4, 150.0)};
  const Tone one[] = {hum(60.0 + 10.0 * std::log10(2.0), 0.4)};
  EXPECT_NEAR(ring_amount(two, ToneFamily::hum, kSettings), ring_amount(one, ToneFamily::hum, kSettings), 1e-12);
}

TEST(RingScore, LouderAndLongerRaiseIt) {
  const auto amount = [](double level, double ring) {
    const Tone tones[] = {hum(level, ring)};
    return ring_amount(tones, ToneFamily::hum, kSettings);
  };
  EXPECT_GT(amount(76.0, 0.2), amount(70.0, 0.2));
  EXPECT_GT(amount(70.0, 0.4), amount(70.0, 0.2));
  // 10 dB more is about one doubling, and so is twice the ring time, as long as the tone is far over 30 dB.
  EXPECT_NEAR(amount(90.0, 0.1) / amount(80.0, 0.1), 2.0, 0.15);
  EXPECT_NEAR(amount(90.0, 0.2) / amount(90.0, 0.1), 2.0, 0.05);
}

TEST(RingScore, ListenedAndHeardNothingIsZero) {
  const RingScore score = ring_score(ToneFamily::hum, {}, listened(), kSettings);
  EXPECT_EQ(score.score, 0.0);
  EXPECT_FALSE(score.parts.strength_db || score.parts.ring_time_s || score.parts.pitch_hz);
  EXPECT_FALSE(score.masked || score.tail_too_short || score.mostly_extrapolated);
}

TEST(RingScore, ShortTailIsNoScore) {
  const Tone tones[] = {hum(80.0, 0.5)};
  // Hum needs 200 ms from 30 ms on, ping 80 ms from 15 ms on.
  EXPECT_TRUE(ring_score(ToneFamily::hum, tones, listened(0.229), kSettings).tail_too_short);
  EXPECT_FALSE(ring_score(ToneFamily::hum, tones, listened(0.229), kSettings).score);
  EXPECT_TRUE(ring_score(ToneFamily::hum, tones, listened(0.230), kSettings).score);
  EXPECT_FALSE(ring_score(ToneFamily::ping, tones, listened(0.094), kSettings).score);
  EXPECT_TRUE(ring_score(ToneFamily::ping, tones, listened(0.095), kSettings).score);
}

TEST(RingScore, MaskedWhenAPlainHumCouldHide) {
  // A hidden 60 dB, 0.25 s tone would read closed_form(60, 0.25) = 0.174 s, 4.3 points: no answer ...
  EXPECT_TRUE(ring_score(ToneFamily::hum, {}, listened(kListened_s, 60.0), kSettings).masked);
  EXPECT_FALSE(ring_score(ToneFamily::hum, {}, listened(kListened_s, 60.0), kSettings).score);
  // ... one of 45 dB 1.6 points: slight, so silence is still an answer ...
  EXPECT_EQ(ring_score(ToneFamily::hum, {}, listened(kListened_s, 45.0), kSettings).score, 0.0);
  // ... and beside a strong tone the hidden one changes nothing.
  const Tone tones[] = {hum(80.0, 0.6)};
  EXPECT_TRUE(ring_score(ToneFamily::hum, tones, listened(kListened_s, 60.0), kSettings).score);
  TailTones deaf = listened();
  deaf.faintest_ping_db.reset();
  EXPECT_FALSE(ring_score(ToneFamily::ping, {}, deaf, kSettings).score);
}

TEST(RingScore, ARefusedLineTakesTheZeroAway) {
  TailTones heard = listened();
  // 0.1 s at 60 dB reads closed_form(60, 0.1) = 0.047 s, 2.3 points; at 35 dB, 0.0008 s: 0.08 points.
  heard.doubtful = {hum(60.0, 0.1, 170.0)};
  EXPECT_TRUE(ring_score(ToneFamily::hum, {}, heard, kSettings).masked);
  EXPECT_FALSE(ring_score(ToneFamily::hum, {}, heard, kSettings).score);
  EXPECT_EQ(ring_score(ToneFamily::ping, {}, heard, kSettings).score, 0.0);
  heard.doubtful = {hum(35.0, 0.1, 170.0)};
  EXPECT_EQ(ring_score(ToneFamily::hum, {}, heard, kSettings).score, 0.0);
  // Beside a tone that was heard, or read as that tone, it takes nothing away.
  const Tone strong[] = {hum(80.0, 0.6)};
  heard.doubtful = {hum(60.0, 0.1, 170.0)};
  EXPECT_TRUE(ring_score(ToneFamily::hum, strong, heard, kSettings).score);
  const Tone same[] = {hum(45.0, 0.1, 171.0)};
  EXPECT_TRUE(ring_score(ToneFamily::hum, same, heard, kSettings).score);
}

TEST(RingScore, SameHorizonForAllDistances) {
  const Tone tones[] = {hum(75.0, 20.0)};
  const RingScore near = ring_score(ToneFamily::hum, tones, listened(0.235), kSettings);
  const RingScore far = ring_score(ToneFamily::hum, tones, listened(0.500), kSettings);
  EXPECT_EQ(near.score, far.score);
  EXPECT_TRUE(near.mostly_extrapolated);  // 205 of 470 ms heard of a tone that hardly falls
  EXPECT_FALSE(far.mostly_extrapolated);
}

TEST(RingScore, PartsAreOfTheFamily) {
  const Tone tones[] = {hum(70.0, 0.3, 95.0), hum(73.0, 0.6, 170.0), {1500.0, 90.0, 0.2, 0.0, ToneFamily::ping}};
  const RingScore score = ring_score(ToneFamily::hum, tones, listened(), kSettings);
  EXPECT_NEAR(*score.parts.strength_db, 74.764, 0.001);  // 10 lg(10^7 + 10^7.3)
  EXPECT_EQ(score.parts.pitch_hz, 170.0);
  EXPECT_EQ(score.parts.ring_time_s, 0.6);
}

TEST(RingScore, MidIsNotScored) { EXPECT_THROW(ring_score(ToneFamily::mid, {}, listened(), kSettings), InternalError); }

}  // namespace
}  // namespace ringfall::shot
