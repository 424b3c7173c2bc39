// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/invented_range.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "base/units.h"
#include "shot/distractors.h"
#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

constexpr double kClearBefore_s = 0.8;
constexpr double kClearAfter_s = 1.9;

struct RangeShot {
  double onset_s;
  double level_db;
  double lag_s;
  double tones_db;
};

SyntheticShot range_bow(Dice& dice, double edge_db) {
  SyntheticShot bow;
  bow.edge_peak_db = edge_db;
  bow.thump_db = edge_db - dice.between(5.0, 14.0);
  bow.thump_ring_time_s = dice.between(0.05, 0.10);
  for (const double hz : {95.0, 170.0, 310.0, 1450.0, 3200.0}) {
    bow.tones.push_back({hz * dice.between(0.9, 1.1), edge_db - dice.between(24.0, 42.0), dice.between(0.08, 0.35)});
  }
  bow.impact_below_db = dice.between(8.0, 16.0);
  return bow;
}

SyntheticShot shot_of(const SyntheticShot& bow, const RangeShot& planned, Dice& dice) {
  SyntheticShot shot = bow;
  const double strength_db = planned.level_db + dice.normal(0.8);
  shot.edge_peak_db += strength_db + dice.normal(0.4);
  shot.thump_db += strength_db + dice.normal(0.6);
  for (auto& tone : shot.tones) tone.level_db += strength_db + planned.tones_db + dice.normal(0.8);
  for (int k = dice.whole(0, 2); k > 0; --k) shot.slap_lag_s.push_back(dice.between(0.003, 0.015));
  shot.slap_below_db = dice.between(3.0, 12.0);
  shot.release_lag_s = -dice.between(0.010, 0.020);
  shot.release_below_db = dice.between(25.0, 38.0);
  if (dice.whole(0, 1) == 1) {
    shot.clicker_lag_s = -dice.between(0.10, 0.25);
    shot.clicker_below_db = dice.between(20.0, 32.0);
  }
  shot.impact_lag_s = planned.lag_s > 0.0 ? planned.lag_s + dice.normal(0.004) : 0.0;
  shot.impact_below_db += dice.normal(1.5);
  return shot;
}

/// One pole: the way over the heads and round the body takes the highest octaves.
void make_duller(std::span<double> wave, double rate_hz, double corner_hz) {
  const double share = 1.0 - std::exp(-2.0 * std::numbers::pi * corner_hz / rate_hz);
  double state = 0.0;
  for (double& sample : wave) sample = state += share * (sample - state);
}

void add_foreign(std::span<double> wave, double rate_hz, double onset_s, const SyntheticShot& shot, bool duller, Dice& dice) {
  std::vector<double> sound(static_cast<std::size_t>(2.5 * rate_hz), 0.0);
  add_synthetic_shot(sound, rate_hz, 0.3, shot, dice.seed());
  if (duller) make_duller(sound, rate_hz, dice.between(4000.0, 9000.0));
  const auto begin = static_cast<std::size_t>((onset_s - 0.3) * rate_hz);
  for (std::size_t n = 0; n < sound.size() && begin + n < wave.size(); ++n) wave[begin + n] += sound[n];
}

/// Level of the archer's fainter shot of the three before and three after.
double faintest_near_db(const std::vector<RangeShot>& own, double at_s) {
  auto after = std::ranges::find_if(own, [&](const RangeShot& shot) { return shot.onset_s > at_s; });
  const auto from = after - std::min<std::ptrdiff_t>(3, after - own.begin());
  const auto to = after + std::min<std::ptrdiff_t>(3, own.end() - after);
  double faintest = 100.0;
  for (auto shot = from; shot != to; ++shot) faintest = std::min(faintest, shot->level_db);
  return faintest;
}

double held_against_db(const RangeNeighbour& neighbour, const std::vector<RangeShot>& own, double at_s) {
  double quietest = 0.0;
  for (const RangeShot& shot : own) quietest = std::min(quietest, shot.level_db);
  return neighbour.held_against == NeighbourLevel::of_quietest_block ? quietest : faintest_near_db(own, at_s);
}

std::vector<RangeShot> own_shots(const RangePlan& plan, Dice& dice, double& end_s) {
  std::vector<RangeShot> own;
  double now_s = 3.0;
  for (const RangeBlock& block : plan.blocks) {
    for (int k = 0; k < block.shots; ++k) {
      own.push_back({now_s, block.level_db, block.lag_s, block.tones_db});
      now_s += dice.between(plan.shortest_gap_s, plan.longest_gap_s);
    }
    now_s += plan.block_gap_s;
  }
  end_s = own.back().onset_s + 4.0;
  return own;
}

std::vector<double> moments(const RangeNeighbour& neighbour, const std::vector<RangeShot>& own, double end_s, Dice& dice) {
  std::vector<double> at;
  if (neighbour.in_turn) {
    for (std::size_t k = 0; k + 1 < own.size(); ++k) {
      at.push_back(own[k].onset_s + (own[k + 1].onset_s - own[k].onset_s) * dice.between(0.40, 0.60));
    }
    return at;
  }
  for (int k = 0, tries = 0; k < neighbour.shots && tries < 5000; ++tries) {
    const double here = dice.between(1.0, end_s - 3.0);
    const bool clear = std::ranges::none_of(own, [&](const RangeShot& shot) {
      return here > shot.onset_s - kClearAfter_s && here < shot.onset_s + kClearAfter_s;
    }) && std::ranges::none_of(at, [&](double other) { return std::abs(other - here) < kClearAfter_s + kClearBefore_s; });
    if (!clear) continue;
    at.push_back(here);
    ++k;
  }
  return at;
}

}  // namespace

InventedEvening make_range(const RangePlan& plan, std::uint64_t seed) {
  Dice dice(seed);
  const double rate = plan.sample_rate_hz;
  const SyntheticShot bow = range_bow(dice, dice.between(104.0, 110.0));
  double end_s = 0.0;
  const auto own = own_shots(plan, dice, end_s);
  InventedEvening range;
  range.sample_rate_hz = rate;
  std::vector<double> wave(static_cast<std::size_t>(end_s * rate), 0.0);
  add_floor(wave, rate, plan.floor_db, 0.0, dice);
  std::vector<double> busy;
  for (const RangeShot& shot : own) busy.push_back(shot.onset_s);
  if (plan.talk) add_talk(wave, rate, bow.edge_peak_db - 20.0, busy, dice);
  for (const RangeShot& planned : own) {
    const auto shot = shot_of(bow, planned, dice);
    add_synthetic_shot(wave, rate, planned.onset_s, shot, dice.seed());
    TrueShot truth{planned.onset_s, {}, true};
    if (planned.lag_s > 0.0) truth.impact_s = planned.onset_s + shot.impact_lag_s;
    range.truth.push_back(truth);
  }
  for (const RangeNeighbour& neighbour : plan.neighbours) {
    SyntheticShot other = neighbour.same_bow ? bow : range_bow(dice, bow.edge_peak_db);
    for (const double at_s : moments(neighbour, own, end_s, dice)) {
      const double level_db = held_against_db(neighbour, own, at_s) + dice.between(neighbour.lowest_db, neighbour.highest_db);
      const auto shot = shot_of(other, {at_s, level_db, neighbour.lag_s, 0.0}, dice);
      add_foreign(wave, rate, at_s, shot, !neighbour.same_bow && !neighbour.in_turn, dice);
      range.truth.push_back({at_s, at_s + shot.impact_lag_s, false});
    }
  }
  std::ranges::sort(range.truth, {}, &TrueShot::onset_s);
  range.samples = to_full_scale(wave, 120.0);
  return range;
}

std::vector<RangePlan> range_plans() {
  const std::vector<RangeBlock> hour = {{5, 0.0, 0.344, 0.0},   {5, -2.5, 0.344, -3.0}, {2, -5.0, 0.344, 2.0},  {3, -5.0, 0.187, 2.0},
                                        {5, -7.5, 0.187, -6.0}, {4, -10.0, 0.187, 0.0}, {1, -10.0, 0.344, 0.0}, {5, 0.0, 0.344, 0.0}};
  const std::vector<RangeBlock> aba = {{5, 0.0, 0.344, 0.0}, {5, -8.0, 0.344, -3.0}, {5, 0.0, 0.344, 0.0}, {5, -8.0, 0.344, -3.0}};
  const RangeNeighbour fainter{10, NeighbourLevel::under_faintest_near, -9.0, -4.5, 0.41, false, false};
  RangeNeighbour same_lag = fainter;
  same_lag.lag_s = 0.344;
  same_lag.same_bow = true;
  const RangeNeighbour as_loud{10, NeighbourLevel::under_faintest_near, -1.5, 1.5, 0.41, false, false};
  const RangeNeighbour over_quiet{10, NeighbourLevel::of_quietest_block, 1.0, 4.0, 0.41, false, false};
  const RangeNeighbour shares{0, NeighbourLevel::of_shots_near, -2.0, 2.0, 0.26, true, false};
  const auto plan = [](std::string name, std::vector<RangeBlock> blocks, std::vector<RangeNeighbour> others) {
    RangePlan made;
    made.name = std::move(name);
    made.blocks = std::move(blocks);
    made.neighbours = std::move(others);
    return made;
  };
  return {plan("five, then five 8 dB quieter", {{5, 0.0, 0.344, 0.0}, {5, -8.0, 0.344, 0.0}}, {}),
          plan("five, then five 6 dB quieter from 10 m", {{5, 0.0, 0.344, 0.0}, {5, -6.0, 0.187, 0.0}}, {}),
          plan("five from 18 m, then ten from 10 m", {{5, 0.0, 0.344, 0.0}, {10, 0.0, 0.187, 0.0}}, {}),
          plan("twelve from 18 m, three from 10 m, twelve from 18 m", {{12, 0.0, 0.344, 0.0}, {3, 0.0, 0.187, 0.0}, {12, 0.0, 0.344, 0.0}}, {}),
          plan("one set-up after another, 10 dB down in steps of 2", {{4, 0.0, 0.344, 0.0}, {4, -2.0, 0.344, 0.0}, {4, -4.0, 0.344, 0.0},
               {4, -6.0, 0.344, 0.0}, {4, -8.0, 0.344, 0.0}, {4, -10.0, 0.344, 0.0}}, {}),
          plan("set-ups 8 dB apart in turn, impacts not heard", {{5, 0.0, 0.0, 0.0}, {5, -8.0, 0.0, 0.0}, {5, 0.0, 0.0, 0.0}, {5, -8.0, 0.0, 0.0}}, {}),
          plan("set-ups and distances, alone", hour, {}),
          plan("the same, a neighbour 3 dB and more under", hour, {fainter}),
          plan("the same, that neighbour with the archer's model and lag", hour, {same_lag}),
          plan("the same, a neighbour as loud as the shots near him", hour, {as_loud}),
          plan("set-ups 8 dB apart in turn, a neighbour louder than the quiet one", aba, {over_quiet}),
          plan("one set-up, two archers share the bay", {{12, 0.0, 0.344, 0.0}}, {shares}),
          plan("two set-ups 6 dB apart, two archers share the bay", {{6, 0.0, 0.344, 0.0}, {6, -6.0, 0.344, 0.0}}, {shares}),
          plan("one set-up, a neighbour 3 dB and more under, talk", {{14, 0.0, 0.344, 0.0}}, {fainter})};
}

}  // namespace ringfall::shot
