// SPDX-License-Identifier: GPL-3.0-or-later
// What could hide: the true score of the tones put in (closed form of the definition) must not lie over the bound.
#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "shot/ladder_shots.h"
#include "shot/measure.h"
#include "shot/ring_score.h"

namespace ringfall::shot::testing {
namespace {

/// Made-up tones, louder and longer.
std::vector<SyntheticTone> scaled(std::vector<SyntheticTone> tones, double level_db, double ring) {
  for (SyntheticTone& tone : tones) {
    tone.level_db += level_db;
    tone.ring_time_s *= ring;
  }
  return tones;
}

struct Tally {
  int nulls = 0, bounded = 0, over = 0;
  std::vector<double> slack;

  void add(const RingScore& heard, double truth) {
    if (heard.score) return;
    ++nulls;
    if (!heard.at_most) return;
    ++bounded;
    over += truth > *heard.at_most + 0.05 ? 1 : 0;
    slack.push_back(*heard.at_most - truth);
  }
  double median_slack() {
    std::ranges::sort(slack);
    return slack.at(slack.size() / 2);
  }
};

/// All bows, rings as they are and halved, tails from an early impact to a late one, floors from a quiet place to a road.
Tally over_scenes(ToneFamily family, std::uint64_t first_seed, int seeds) {
  Tally tally;
  for (const auto& tones : {kDeadTones, kAverageTones, kRingingTones}) {
    for (const double ring : {0.5, 1.0}) {
      for (const double tail_end_s : {0.10, 0.16, 0.24, 0.334}) {
        for (const double floor_db : {25.0, 45.0, 55.0}) {
          Scene scene = scene_of(scaled(tones, 0.0, ring));
          scene.tail_end_s = tail_end_s;
          scene.floor_db = floor_db;
          for (int k = 0; k < seeds; ++k) {
            const Heard heard = hear(scene, first_seed + static_cast<std::uint64_t>(k));
            tally.add(family == ToneFamily::hum ? heard.hum : heard.ping, true_score(scene, family));
          }
        }
      }
    }
  }
  return tally;
}

// The truth is the closed form of the tones put in; these seeds chose nothing. 3 %: the goal of docs/measures/hum_ping.md.
TEST(RingBound, HoldsWhereThereIsNoScoreSlowUnderSanitizer) {
  for (const ToneFamily family : {ToneFamily::hum, ToneFamily::ping}) {
    Tally tally = over_scenes(family, 9300, 2);
    ASSERT_GE(tally.nulls, 8);
    EXPECT_EQ(tally.bounded, tally.nulls) << "a bound instead of a null";
    EXPECT_LE(tally.over, 0.03 * tally.bounded);
    EXPECT_LT(tally.median_slack(), 3.0) << "a bound worth having";
  }
}

TEST(RingBound, StrongerRingsHideBehindStrongerThumps) {
  Scene quiet = scene_of({});
  quiet.tail_end_s = 0.16;
  Scene loud = quiet;
  loud.shot.thump_db += 12.0;
  for (std::uint64_t seed = 41; seed < 46; ++seed) EXPECT_GT(*hear(loud, seed).hum.at_most, *hear(quiet, seed).hum.at_most + 0.5);
}

TEST(RingBound, NothingIsKnownOfATailOfNothing) {
  Scene scene = scene_of(kAverageTones);
  scene.tail_end_s = 0.020;
  const Heard heard = hear(scene, 5);
  EXPECT_FALSE(heard.hum.at_most);
  EXPECT_FALSE(heard.hum.score);
}

}  // namespace
}  // namespace ringfall::shot::testing
