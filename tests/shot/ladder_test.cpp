// SPDX-License-Identifier: GPL-3.0-or-later
// The ladder dead, average, ringing on made-up shots whose tones are known: scores against the closed form of the true
// tones, and what must not move them.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "shot/ladder_shots.h"

namespace ringfall::shot::testing {
namespace {

constexpr int kSeeds = 8;

struct Mean {
  double hum = 0.0, ping = 0.0;
};

/// Mean scores over the seeds; every shot must have both.
Mean mean_scores(const Scene& scene, int seeds = kSeeds) {
  Mean mean;
  for (int seed = 1; seed <= seeds; ++seed) {
    const Heard heard = hear(scene, static_cast<std::uint64_t>(seed));
    EXPECT_TRUE(heard.hum.score) << seed;
    EXPECT_TRUE(heard.ping.score) << seed;
    mean.hum += heard.hum.score.value_or(NAN) / seeds;
    mean.ping += heard.ping.score.value_or(NAN) / seeds;
  }
  return mean;
}

Scene changed(Scene scene, const std::function<void(Scene&)>& change) {
  change(scene);
  return scene;
}

TEST(Ladder, ScoresAreThoseOfTheTrueTones) {
  for (const auto& tones : {kAverageTones, kRingingTones}) {
    const Scene scene = scene_of(tones);
    const Mean mean = mean_scores(scene);
    EXPECT_NEAR(mean.hum, true_score(scene, ToneFamily::hum), 0.15);
    EXPECT_NEAR(mean.ping, true_score(scene, ToneFamily::ping), 0.15);
  }
}

TEST(Ladder, Climbs) {
  const Mean dead = mean_scores(scene_of(kDeadTones));
  const Mean average = mean_scores(scene_of(kAverageTones));
  const Mean ringing = mean_scores(scene_of(kRingingTones));
  EXPECT_LT(dead.hum, 0.3);
  EXPECT_LT(dead.ping, 1.0);  // its tones' own worth is 0.6, see true_score
  EXPECT_LT(dead.hum + 2.0, average.hum);
  EXPECT_LT(dead.ping + 2.0, average.ping);
  EXPECT_LT(average.hum + 2.0, ringing.hum);
  EXPECT_LT(average.ping + 2.0, ringing.ping);
}

TEST(Ladder, LouderThumpMovesNothing) {
  for (const auto& tones : {kAverageTones, kRingingTones}) {
    const Mean before = mean_scores(scene_of(tones));
    const Mean after = mean_scores(changed(scene_of(tones), [](Scene& s) { s.shot.thump_db += 12.0; }));
    EXPECT_NEAR(after.hum, before.hum, 0.3);
    EXPECT_NEAR(after.ping, before.ping, 0.3);
  }
}

TEST(Ladder, LongThumpHidesOrMovesNothing) {
  // An average hum is then at the limit of what can be heard at all: single shots may be masked, never wrongly silent.
  for (int seed = 1; seed <= 12; ++seed) {
    const Heard heard = hear(changed(scene_of(kAverageTones), [](Scene& s) { s.shot.thump_ring_time_s = 0.166; }),
                             static_cast<std::uint64_t>(seed));
    EXPECT_TRUE(heard.hum.masked || *heard.hum.score > 3.0) << seed;
  }
  const Scene ringing = changed(scene_of(kRingingTones), [](Scene& s) { s.shot.thump_ring_time_s = 0.166; });
  EXPECT_NEAR(mean_scores(ringing).hum, true_score(ringing, ToneFamily::hum), 0.15);
}

TEST(Ladder, FloorMovesNothing) {
  for (const auto& tones : {kDeadTones, kAverageTones, kRingingTones}) {
    const Mean quiet = mean_scores(changed(scene_of(tones), [](Scene& s) { s.floor_db = 25.0; }));
    const Mean noisy = mean_scores(changed(scene_of(tones), [](Scene& s) { s.floor_db = 45.0; }));
    EXPECT_NEAR(noisy.hum, quiet.hum, 0.3);
    // The dead bow's ping (worth 0.6) dies within 50 ms and is lost first.
    EXPECT_NEAR(noisy.ping, quiet.ping, tones.size() == kDeadTones.size() ? 0.6 : 0.3);
  }
}

TEST(Ladder, MoreToneIsMore) {
  const Mean before = mean_scores(scene_of(kAverageTones));
  const Mean louder = mean_scores(changed(scene_of(kAverageTones), [](Scene& s) {
    for (auto& tone : s.shot.tones) tone.level_db += 6.0;
  }));
  const Mean longer = mean_scores(changed(scene_of(kAverageTones), [](Scene& s) {
    for (auto& tone : s.shot.tones) tone.ring_time_s *= 2.0;
  }));
  EXPECT_GT(louder.hum, before.hum + 0.5);
  EXPECT_GT(louder.ping, before.ping + 0.5);
  EXPECT_GT(longer.hum, before.hum + 1.0);
  EXPECT_GT(longer.ping, before.ping + 1.0);
}

TEST(Ladder, TailEndMovesNothing) {
  const Mean at_18_m = mean_scores(scene_of(kRingingTones));
  const Mean at_12_m = mean_scores(changed(scene_of(kRingingTones), [](Scene& s) { s.tail_end_s = 0.240; }));
  EXPECT_NEAR(at_12_m.hum, at_18_m.hum, 0.1);
  EXPECT_NEAR(at_12_m.ping, at_18_m.ping, 0.1);
  const Heard at_6_m = hear(changed(scene_of(kRingingTones), [](Scene& s) { s.tail_end_s = 0.120; }), 1);
  EXPECT_FALSE(at_6_m.hum.score);
  EXPECT_TRUE(at_6_m.hum.tail_too_short);
  EXPECT_TRUE(at_6_m.ping.score);
}

/// Shots out of `seeds` whose tones alone would read more than 0.3 points, hum or ping.
int false_alarms(const Scene& scene, int seeds) {
  const MeasureSettings settings;
  int count = 0;
  for (int seed = 1; seed <= seeds; ++seed) {
    const auto tones = find_tones(tail_of(scene, static_cast<std::uint64_t>(seed)), settings).tones;
    count += score_of(ring_amount(tones, ToneFamily::hum, settings)) > 0.3 ||
             score_of(ring_amount(tones, ToneFamily::ping, settings)) > 0.3;
  }
  return count;
}

TEST(Ladder, ThumpAloneRingsNot) {
  EXPECT_EQ(false_alarms(Scene{}, 100), 0);
  EXPECT_EQ(false_alarms(changed({}, [](Scene& s) { s.shot.thump_db += 12.0; }), 60), 0);
  EXPECT_LE(false_alarms(changed({}, [](Scene& s) { s.shot.thump_ring_time_s *= 2.0; }), 60), 1);
  const Heard heard = hear(Scene{}, 1);
  EXPECT_EQ(heard.hum.score, 0.0);
  EXPECT_EQ(heard.ping.score, 0.0);
}

TEST(Ladder, RoomAloneRingsNot) {
  for (double ring_s : {0.3, 0.5, 0.8})
    for (double level : {65.0, 85.0})
      EXPECT_LE(false_alarms(changed({}, [&](Scene& s) {
                               s.room_db = level;
                               s.room_ring_time_s = ring_s;
                             }), 25), 1) << ring_s << ' ' << level;
}

}  // namespace
}  // namespace ringfall::shot::testing
