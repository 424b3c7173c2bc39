// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/invented_evening.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <span>

#include "base/units.h"
#include "shot/arrow_flight.h"
#include "shot/distractors.h"
#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

/// One archer's bow at one distance.
SyntheticShot bow_of(Dice& dice, const EveningPlan& plan) {
  SyntheticShot bow;
  bow.edge_peak_db = dice.between(100.0, 112.0);
  bow.thump_db = bow.edge_peak_db - dice.between(5.0, 14.0);
  bow.thump_ring_time_s = dice.between(0.05, 0.10);
  const double longest_s = plan.ringing ? 0.8 : 0.3;
  const double strength_db = bow.edge_peak_db - dice.between(22.0, plan.ringing ? 28.0 : 36.0);
  for (const double hz : {95.0, 170.0, 310.0, 1450.0, 3200.0}) {
    bow.tones.push_back({hz * dice.between(0.9, 1.1), strength_db - dice.between(0.0, 10.0), dice.between(0.1, longest_s)});
  }
  bow.impact_below_db = dice.between(6.0, 20.0);
  return bow;
}

SyntheticShot one_shot(const SyntheticShot& bow, double lag_s, Dice& dice, const EveningPlan& plan) {
  SyntheticShot shot = bow;
  const double strength_db = dice.normal(0.8);
  shot.edge_peak_db += strength_db + dice.normal(0.5);
  shot.thump_db += strength_db + dice.normal(0.7);
  for (auto& tone : shot.tones) tone.level_db += strength_db + dice.normal(1.0);
  const int slaps = dice.whole(0, 2);
  for (int k = 0; k < slaps; ++k) shot.slap_lag_s.push_back(dice.between(0.003, 0.015));
  shot.slap_below_db = dice.between(3.0, 15.0);
  shot.release_lag_s = -dice.between(0.010, 0.020);
  shot.release_below_db = dice.between(20.0, 40.0);
  if (plan.clickers) {
    shot.clicker_lag_s = -dice.between(0.10, 0.25);
    shot.clicker_below_db = dice.between(20.0, 35.0);
  }
  shot.impact_lag_s = plan.impacts ? lag_s * (1.0 + dice.normal(0.006)) : 0.0;
  shot.impact_below_db += dice.normal(1.5);
  return shot;
}

/// Adds a shot heard from farther away: fainter, duller, with the room behind it.
void add_neighbour(std::span<double> wave, double rate_hz, double onset_s, const SyntheticShot& shot, double below_db,
                   Dice& dice) {
  const auto length = static_cast<std::size_t>(3.0 * rate_hz);
  std::vector<double> sound(length, 0.0);
  add_synthetic_shot(sound, rate_hz, 0.3, shot, dice.seed());
  add_room(sound, rate_hz, dice.between(0.3, 0.8), dice);
  const double smoothing = 1.0 - std::exp(-2.0 * std::numbers::pi * dice.between(2000.0, 5000.0) / rate_hz);
  double state = 0.0;
  const auto begin = std::llround((onset_s - 0.3) * rate_hz);
  for (std::size_t n = 0; n < length; ++n) {
    state += smoothing * (sound[n] - state);
    const auto at = begin + static_cast<std::int64_t>(n);
    if (at < 0 || at >= static_cast<std::int64_t>(wave.size())) continue;
    wave[static_cast<std::size_t>(at)] += state * db_to_amplitude(-below_db);
  }
}

}  // namespace

InventedEvening make_evening(const EveningPlan& plan, std::uint64_t seed) {
  Dice dice(seed);
  const double rate = plan.sample_rate_hz;
  const SyntheticShot bow = bow_of(dice, plan);
  const double lag_s = impact_lag_s(dice.between(5.0, 30.0), dice.between(45.0, 90.0), 20.0);
  const SyntheticShot other_bow = bow_of(dice, plan);
  const double other_lag_s = impact_lag_s(dice.between(5.0, 30.0), dice.between(45.0, 90.0), 20.0);
  const double other_below_db = dice.between(6.0, 12.0);

  InventedEvening evening;
  evening.sample_rate_hz = rate;
  double now_s = plan.lead_s;
  std::vector<double> own_s;
  for (int k = 0; k < plan.shots; ++k) {
    own_s.push_back(now_s);
    now_s += dice.between(3.0, 9.0);
  }
  const double length_s = now_s + 2.0;
  std::vector<double> wave(static_cast<std::size_t>(length_s * rate), 0.0);
  add_floor(wave, rate, plan.floor_db, plan.drift_db, dice);
  if (plan.wind) add_gusts(wave, rate, bow.edge_peak_db - 10.0, dice);
  if (plan.talk) add_talk(wave, rate, bow.edge_peak_db - dice.between(12.0, 25.0), own_s, dice);
  if (plan.steps) add_steps(wave, rate, bow.edge_peak_db, own_s, dice);
  for (const double onset_s : own_s) {
    SyntheticShot shot = one_shot(bow, lag_s, dice, plan);
    if (evening.truth.size() >= own_s.size() / 2) {
      shot.edge_peak_db -= plan.setup_step_db;
      shot.thump_db -= plan.setup_step_db;
      for (auto& tone : shot.tones) tone.level_db -= plan.setup_step_db;
    }
    add_synthetic_shot(wave, rate, onset_s, shot, dice.seed());
    TrueShot truth{onset_s, {}, true};
    if (plan.impacts) truth.impact_s = onset_s + shot.impact_lag_s;
    evening.truth.push_back(truth);
  }
  if (plan.neighbour) {
    for (int k = 0; k < plan.shots * plan.neighbours_a_shot; ++k) {
      const double at_s = dice.between(0.5, length_s - 3.0);
      // Two shots at the same moment are one sound.
      const bool together = std::ranges::any_of(own_s, [&](double s) { return std::abs(s - at_s) < 0.25; });
      if (together) continue;
      SyntheticShot shot = one_shot(other_bow, other_lag_s, dice, plan);
      shot.edge_peak_db += bow.edge_peak_db - other_bow.edge_peak_db;
      shot.thump_db += bow.edge_peak_db - other_bow.edge_peak_db;
      add_neighbour(wave, rate, at_s, shot, other_below_db + std::abs(dice.normal(1.0)), dice);
      evening.truth.push_back({at_s, at_s + shot.impact_lag_s, false});
    }
  }
  std::ranges::sort(evening.truth, {}, &TrueShot::onset_s);
  evening.samples = to_full_scale(wave, plan.full_scale_db);
  for (float& sample : evening.samples) {
    sample = std::clamp(sample + static_cast<float>(plan.offset), -1.0F, 1.0F);
  }
  return evening;
}

void Agreement::add(const Agreement& other) {
  mean_onset_s = (mean_onset_s * (shots - missed) + other.mean_onset_s * (other.shots - other.missed)) /
                 std::max(1, shots - missed + other.shots - other.missed);
  shots += other.shots;
  missed += other.missed;
  extra += other.extra;
  extra_unnamed += other.extra_unnamed;
  worst_onset_s = std::max(worst_onset_s, other.worst_onset_s);
  impacts += other.impacts;
  impacts_wrong += other.impacts_wrong;
  impacts_missed += other.impacts_missed;
  worst_impact_s = std::max(worst_impact_s, other.worst_impact_s);
}

}  // namespace ringfall::shot
