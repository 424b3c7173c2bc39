// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/find.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "shot/distractors.h"
#include "shot/invented_evening.h"
#include "shot/judge_finder.h"
#include "shot/synthetic_shot.h"

/// The truth in all of these is where the invented shots were put.
namespace ringfall::shot {
namespace {

constexpr double kEdgeAim_s = 0.0003;

Agreement over_seeds(EveningPlan plan, int first_seed, int seeds) {
  Agreement all;
  for (int seed = first_seed; seed < first_seed + seeds; ++seed) {
    all.add(judge(make_evening(plan, static_cast<std::uint64_t>(seed))));
  }
  return all;
}

TEST(Find, CleanEveningsHaveEveryShotAndNoOtherSlowUnderSanitizer) {
  for (const double rate_hz : {44100.0, 48000.0}) {
    EveningPlan plan;
    plan.sample_rate_hz = rate_hz;
    plan.clickers = rate_hz > 45000.0;
    const auto all = over_seeds(plan, 101, 10);
    EXPECT_EQ(all.shots, 120);
    EXPECT_EQ(all.missed, 0);
    EXPECT_EQ(all.extra, 0);
    EXPECT_LT(all.worst_onset_s, 0.5 * kEdgeAim_s);
    EXPECT_EQ(all.impacts_wrong, 0);
    EXPECT_LE(all.impacts_missed, 1);
    EXPECT_LT(all.worst_impact_s, 0.001);
  }
}

// Talk, steps, doors, gusts, clickers and a neighbour together: under 1 % missed or extra.
TEST(Find, HardEveningsSlowUnderSanitizer) {
  EveningPlan plan;
  plan.wind = plan.steps = plan.talk = plan.neighbour = plan.clickers = true;
  plan.floor_db = 55.0;
  const auto all = over_seeds(plan, 201, 10);
  EXPECT_EQ(all.shots, 120);
  EXPECT_LE(all.missed, 1);
  EXPECT_LE(all.extra, 1);
  EXPECT_LT(all.worst_onset_s, kEdgeAim_s);
  EXPECT_LE(all.impacts_wrong, 3);
}

/// What a coder of 64 kb/s smears over the frame before each shot: noise from 13 ms before the edge on, rising by steps
/// to 20-30 dB under it. Levels as seen in such files.
void add_pre_echo(InventedEvening& evening, std::uint64_t seed) {
  Dice dice(seed);
  for (const TrueShot& shot : evening.truth) {
    const auto edge = static_cast<std::size_t>(std::floor(shot.onset_s * evening.sample_rate_hz));
    const auto at = [&](double before_s) { return edge - static_cast<std::size_t>(before_s * evening.sample_rate_hz); };
    float peak = 0.0F;
    for (std::size_t n = edge; n < edge + 240; ++n) peak = std::max(peak, std::abs(evening.samples[n]));
    for (std::size_t n = at(0.013); n < edge; ++n) {
      const double below_db = n < at(0.009) ? 52.0 : n < at(0.0035) ? 46.0 : 34.0;
      evening.samples[n] += static_cast<float>(dice.normal(static_cast<double>(peak) * std::pow(10.0, -0.05 * below_db)));
    }
  }
}

TEST(Find, ALossyCodersPreEchoHidesNoShotSlowUnderSanitizer) {
  EveningPlan plan;
  plan.shots = 5;
  for (std::uint64_t seed = 451; seed < 459; ++seed) {
    InventedEvening evening = make_evening(plan, seed);
    add_pre_echo(evening, seed);
    const Agreement found = judge(evening);
    EXPECT_EQ(found.missed, 0) << seed;
    EXPECT_EQ(found.extra, 0) << seed;
    EXPECT_LT(found.worst_onset_s, 0.001) << seed;
  }
}

TEST(Find, EverySampleRateSlowUnderSanitizer) {
  for (const double rate_hz : {8000.0, 16000.0, 96000.0, 192000.0}) {
    EveningPlan plan;
    plan.sample_rate_hz = rate_hz;
    plan.shots = 4;
    const auto all = over_seeds(plan, 301, 2);
    EXPECT_EQ(all.missed, 0) << rate_hz;
    EXPECT_EQ(all.extra, 0) << rate_hz;
    EXPECT_LT(all.worst_onset_s, kEdgeAim_s) << rate_hz;
  }
}

// Full scale 96 dB clips every shot; 150 dB puts their peaks at -38 to -50 dBFS. A 95 dB floor drifts by 30 dB, with an offset.
TEST(Find, LevelsFloorsAndOffsetsSlowUnderSanitizer) {
  EveningPlan clipped, faint, drifting, loud_floor;
  clipped.full_scale_db = 96.0;
  faint.full_scale_db = 150.0;
  drifting.drift_db = 30.0;
  drifting.offset = 0.03;
  loud_floor.floor_db = 70.0;  // 30 to 42 dB under the peaks
  for (const EveningPlan& plan : {clipped, faint, drifting, loud_floor}) {
    const auto all = over_seeds(plan, 401, 2);
    EXPECT_EQ(all.missed, 0);
    EXPECT_EQ(all.extra, 0);
    EXPECT_LT(all.worst_onset_s, kEdgeAim_s);
  }
}

TEST(Find, StartsOnTheHitAndIsCutAfterIt) {
  EveningPlan plan;
  plan.lead_s = 0.0;
  plan.floor_db = 25.0;
  plan.shots = 3;
  auto evening = make_evening(plan, 7);
  // The last shot keeps 50 ms.
  evening.samples.resize(static_cast<std::size_t>((evening.truth.back().onset_s + 0.05) * plan.sample_rate_hz));
  for (auto& shot : evening.truth) shot.impact_s.reset();
  std::vector<Event> events;
  ShotFinder finder(48000.0, {}, [&](FoundEvent&& found) { events.push_back(found.event); });
  finder.push(evening.samples);
  finder.finish();
  ASSERT_EQ(events.size(), 3U);
  EXPECT_LE(events[0].onset_sample, 5);
  EXPECT_FALSE(events[0].has_quiet_before);
  EXPECT_TRUE(events[2].has_quiet_before);
  EXPECT_NEAR(static_cast<double>(events[2].onset_sample) / 48000.0, evening.truth[2].onset_s, kEdgeAim_s);
  EXPECT_FALSE(events[2].impact_sample.has_value());
}

TEST(Find, DigitalSilenceBefore) {
  std::vector<double> wave(48000 * 3, 0.0);
  add_synthetic_shot(wave, 48000.0, 1.5, {}, 3);
  const auto found = find_all(to_full_scale(wave, 120.0), 48000.0, {}, 4096);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(onset_s(found[0].event, 48000.0), 1.5, 0.0001);
  ASSERT_TRUE(found[0].event.impact_sample.has_value());
  EXPECT_NEAR(static_cast<double>(*found[0].event.impact_sample) / 48000.0, 1.5 + 0.344, 0.001);
}

TEST(Find, BlocksDoNotMatter) {
  EveningPlan plan;
  plan.shots = 5;
  plan.steps = plan.talk = plan.neighbour = plan.clickers = true;
  const auto evening = make_evening(plan, 11);
  const auto whole = find_all(evening.samples, 48000.0, {}, evening.samples.size());
  ASSERT_GE(whole.size(), 5U);
  for (const std::size_t block : {std::size_t{1}, std::size_t{47}, std::size_t{480}, std::size_t{65536}}) {
    const auto parts = find_all(evening.samples, 48000.0, {}, block);
    ASSERT_EQ(parts.size(), whole.size()) << block;
    for (std::size_t k = 0; k < whole.size(); ++k) {
      EXPECT_EQ(parts[k].event.onset_sample, whole[k].event.onset_sample);
      EXPECT_EQ(parts[k].event.onset_fraction, whole[k].event.onset_fraction);
      EXPECT_EQ(parts[k].event.impact_sample, whole[k].event.impact_sample);
      EXPECT_EQ(parts[k].event.likeness, whole[k].event.likeness);
      EXPECT_EQ(parts[k].clip.samples, whole[k].clip.samples);
    }
  }
}

TEST(Find, NoShotNoEventSlowUnderSanitizer) {
  EveningPlan talk;
  talk.shots = 0;
  talk.talk = true;
  talk.lead_s = 30.0;
  auto all = talk;
  all.steps = all.wind = true;
  for (const EveningPlan& plan : {talk, all}) {
    for (std::uint64_t seed = 1; seed <= 3; ++seed) EXPECT_EQ(judge(make_evening(plan, seed)).extra, 0);
  }
  // Tones that come and go like music: 40 ms attacks.
  std::vector<float> music(48000 * 10);
  for (std::size_t n = 0; n < music.size(); ++n) {
    const double t = static_cast<double>(n) / 48000.0;
    const double note = std::fmod(t, 0.5);
    music[n] = static_cast<float>(0.3 * std::min(note / 0.04, 1.0) * std::exp(-4.0 * note) * std::sin(2764.6 * t));
  }
  EXPECT_TRUE(find_all(music, 48000.0, {}, 4096).empty());
  EXPECT_TRUE(find_all(std::vector<float>(48000, 0.0F), 48000.0, {}, 4096).empty());
  EXPECT_TRUE(find_all({}, 48000.0, {}, 4096).empty());
  EXPECT_TRUE(find_all(std::vector<float>(48000, std::numeric_limits<float>::quiet_NaN()), 48000.0, {}, 4096).empty());
}

// Broken samples count as 0, whatever is around them.
TEST(Find, NonFiniteSamplesCountAsZero) {
  EveningPlan plan;
  plan.shots = 2;
  auto zeros = make_evening(plan, 13).samples;
  auto broken = zeros;
  for (std::size_t n = 60000; n < zeros.size(); n += 60001) {
    zeros[n] = 0.0F;
    broken[n] = n % 2 == 0 ? std::numeric_limits<float>::infinity() : std::numeric_limits<float>::quiet_NaN();
  }
  const auto right = find_all(zeros, 48000.0, {}, 4096);
  const auto found = find_all(broken, 48000.0, {}, 4096);
  ASSERT_GE(right.size(), 2U);
  ASSERT_EQ(found.size(), right.size());
  for (std::size_t k = 0; k < right.size(); ++k) EXPECT_EQ(found[k].clip.samples, right[k].clip.samples);
}

// Two alike knocks 0.2 s apart are two knocks, each the other's neighbour in time.
TEST(Find, AlikeEventsAreRepeats) {
  std::vector<double> wave(48000 * 3, 0.0);
  SyntheticShot knock;
  knock.impact_lag_s = 0.0;
  add_synthetic_shot(wave, 48000.0, 1.0, knock, 5);
  add_synthetic_shot(wave, 48000.0, 1.2, knock, 5);
  add_white_noise(wave, 40.0, 1);
  const auto found = find_all(to_full_scale(wave, 120.0), 48000.0, {}, 4096);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_FALSE(found[0].event.impact_sample.has_value());
  ASSERT_TRUE(found[0].clip.next_shot_sample.has_value());
  EXPECT_NEAR(static_cast<double>(*found[0].clip.next_shot_sample) / 48000.0, 1.2, 0.001);
}

// A neighbour 8 dB fainter looses 0.6 s before: the own shot is not its impact.
TEST(Find, AQuieterShotBeforeTakesNothing) {
  for (const double before_s : {0.35, 0.6, 1.2}) {
    std::vector<double> wave(48000 * 5, 0.0);
    SyntheticShot own, other;
    other.edge_peak_db = own.edge_peak_db - 8.0;
    other.thump_db = own.thump_db - 8.0;
    other.impact_lag_s = 0.0;
    add_synthetic_shot(wave, 48000.0, 2.0 - before_s, other, 8);
    add_synthetic_shot(wave, 48000.0, 2.0, own, 9);
    add_white_noise(wave, 45.0, 1);
    const auto found = find_all(to_full_scale(wave, 120.0), 48000.0, {}, 4096);
    const auto own_one = std::ranges::find_if(found, [](const FoundEvent& one) {
      return std::abs(onset_s(one.event, 48000.0) - 2.0) < 0.0003;
    });
    ASSERT_NE(own_one, found.end()) << before_s;
    ASSERT_TRUE(own_one->event.impact_sample.has_value()) << before_s;
    EXPECT_NEAR(static_cast<double>(*own_one->event.impact_sample) / 48000.0, 2.344, 0.001);
  }
}

TEST(Find, ClipsHoldPreRollAndPostRoll) {
  EveningPlan plan;
  plan.shots = 3;
  const auto evening = make_evening(plan, 12);
  FindSettings settings;
  settings.pre_roll_s = 0.5;
  settings.post_roll_s = 0.7;
  for (const auto& found : find_all(evening.samples, 48000.0, settings, 1000)) {
    EXPECT_EQ(found.clip.onset_sample - found.clip.first_sample, 24000);
    EXPECT_EQ(found.clip.samples.size(), 57600U);
    for (std::size_t n = 0; n < found.clip.samples.size(); n += 997) {
      EXPECT_EQ(found.clip.samples[n], evening.samples[static_cast<std::size_t>(found.clip.first_sample) + n]);
    }
  }
}

TEST(Find, DistanceNarrowsTheImpact) {
  std::vector<double> wave(48000 * 4, 0.0);
  add_synthetic_shot(wave, 48000.0, 1.0, {}, 3);  // impact after 344 ms: 18 m at 60 m/s
  add_white_noise(wave, 45.0, 1);
  FindSettings settings;
  settings.distance_m = 18.0;
  settings.arrow_speed_m_s = 58.0;
  auto found = find_all(to_full_scale(wave, 120.0), 48000.0, settings, 4096);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].event.impact_sample.has_value());
  settings.distance_m = 50.0;  // nothing is heard when it should be
  found = find_all(to_full_scale(wave, 120.0), 48000.0, settings, 4096);
  ASSERT_GE(found.size(), 1U);
  EXPECT_FALSE(found[0].event.impact_sample.has_value());
}

}  // namespace
}  // namespace ringfall::shot
