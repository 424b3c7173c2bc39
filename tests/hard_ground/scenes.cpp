// SPDX-License-Identifier: GPL-3.0-or-later
#include "hard_ground/scenes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "hard_ground/sounds.h"
#include "shot/chain_findings.h"
#include "shot/measure.h"
#include "shot/room.h"
#include "shot/synthetic_shot.h"

namespace ringfall::hard_ground {
namespace {

constexpr double kEdge_s = 0.8;
constexpr double kLength_s = 2.0;

double pascal(double level_db) { return 2e-5 * std::pow(10.0, level_db / 20.0); }

/// A made-up bow: some modes, a thump, an edge.
shot::SyntheticShot bow_of(Dice& dice) {
  shot::SyntheticShot bow;
  bow.thump_db = dice.between(96.0, 102.0);
  bow.thump_ring_time_s = dice.between(0.07, 0.11);
  bow.tones = {{dice.between(70.0, 150.0), dice.between(72.0, 90.0), dice.between(0.15, 0.60)},
               {dice.between(250.0, 600.0), dice.between(68.0, 80.0), dice.between(0.08, 0.25)},
               {dice.between(1000.0, 3500.0), dice.between(66.0, 78.0), dice.between(0.07, 0.22)}};
  bow.slap_lag_s = {dice.between(0.004, 0.012)};
  bow.impact_lag_s = 0.0;
  return bow;
}

/// The places of one scene and what the room does to a sound from each.
struct Place {
  std::vector<double> bow, target, aside;

  Place(const Scene& scene, Dice& dice) {
    if (scene.room_s <= 0.0) return;
    const Point room{!scene.small_room ? dice.between(20.0, 26.0) : dice.between(6.0, 8.0), dice.between(6.0, 12.0), dice.between(3.0, 5.0)};
    const Point bow_at{1.8, room.y / 2.0, 1.6};
    const Point microphone{1.2, room.y / 2.0 - dice.between(0.8, 1.4), 1.4};
    const auto to = [&](const Point& from) { return room_response(room, from, microphone, scene.room_s, scene.rate_hz); };
    bow = to(bow_at);
    target = to({room.x - 1.5, room.y / 2.0 + 0.7, 1.3});
    aside = to({1.8, room.y / 2.0 + 2.0, 1.6});
  }
};

std::vector<double> heard_in(std::vector<double> wave, const std::vector<double>& response) {
  return response.empty() ? wave : convolved(wave, response);
}

void mix(std::vector<double>& wave, const std::vector<double>& other) {
  for (std::size_t n = 0; n < wave.size(); ++n) wave[n] += other[n];
}

void add_lines(std::vector<double>& wave, const Scene& scene, double phase) {
  const auto add = [&](double hz, double level_db) {
    for (std::size_t n = 0; n < wave.size(); ++n) {
      wave[n] += std::numbers::sqrt2 * pascal(level_db) *
                 std::sin(2.0 * std::numbers::pi * hz * static_cast<double>(n) / scene.rate_hz + phase);
    }
  };
  if (scene.mains_db > 0.0) {
    add(100.0, scene.mains_db);
    add(150.0, scene.mains_db - 5.0);
  }
  if (scene.fan) add(240.0, 46.0);
}

shot::Clip clip_of(const std::vector<double>& wave, const Scene& scene, bool with_impact) {
  shot::Clip clip;
  clip.sample_rate_hz = scene.rate_hz;
  clip.samples = shot::to_full_scale(wave, scene.full_scale_db);
  clip.onset_sample = static_cast<std::int64_t>(kEdge_s * scene.rate_hz);
  if (with_impact) clip.impact_sample = clip.onset_sample + static_cast<std::int64_t>(scene.lag_s * scene.rate_hz);
  return clip;
}

double gain_db(const Scene& scene, double quietest_peak_pa) {
  if (scene.peaks_at_db == 0.0) return 0.0;
  return scene.full_scale_db - 20.0 * std::log10(quietest_peak_pa / 2e-5) + scene.peaks_at_db;
}

/// The recorder: gain, ceiling, cuts, rounding.
void record(std::vector<double>& wave, const Scene& scene, double quietest_peak_pa) {
  if (scene.gain_depth_db > 0.0) ride_gain(wave, scene.rate_hz, pascal(84.0), scene.gain_depth_db, scene.gain_release_s);
  if (scene.low_pass_hz > 0.0) low_pass(wave, scene.rate_hz, scene.low_pass_hz);
  if (scene.low_cut_hz > 0.0) low_cut(wave, scene.rate_hz, scene.low_cut_hz);
  if (scene.limiter_below_db > 0.0) limit(wave, scene.rate_hz, quietest_peak_pa * std::pow(10.0, -scene.limiter_below_db / 20.0));
  const double full_pa = pascal(scene.full_scale_db);
  if (scene.peaks_at_db != 0.0) {
    const double gain = std::pow(10.0, gain_db(scene, quietest_peak_pa) / 20.0);
    for (double& value : wave) value = std::clamp(value * gain, -full_pa, full_pa * 32767.0 / 32768.0);
  }
  if (scene.gate) {
    for (auto n = static_cast<std::size_t>((kEdge_s + 0.12) * scene.rate_hz); n < wave.size(); ++n) wave[n] = 0.0;
  }
  const double step = full_pa / std::exp2(scene.bits - 1);
  for (double& value : wave) value = step * std::round(value / step);
  if (scene.lossy) code_with_losses(wave, scene.rate_hz);
}

}  // namespace

std::vector<SceneShot> render(const Scene& scene) {
  Dice dice(scene.seed);
  const auto length = static_cast<std::size_t>(kLength_s * scene.rate_hz);
  const Place place(scene, dice);
  const shot::SyntheticShot bow = bow_of(dice);
  std::vector<std::vector<double>> waves;
  std::vector<SceneShot> shots(static_cast<std::size_t>(scene.shots));
  double quietest_peak_pa = 1e9;
  for (SceneShot& one : shots) {
    const double own_db = scene.spread_db * dice.normal();
    auto shot = bow;
    shot.edge_peak_db += own_db + 0.5 * scene.spread_db * dice.normal();
    shot.thump_db += own_db + 0.5 * scene.spread_db * dice.normal();
    for (auto& tone : shot.tones) tone.level_db += own_db + 0.7 * scene.spread_db * dice.normal();
    std::vector<double> alone(length, 0.0);
    const auto noise_seed = static_cast<std::uint64_t>(1e9 * dice.uniform());
    shot::add_synthetic_shot(alone, scene.rate_hz, kEdge_s, shot, noise_seed);
    auto in_place = heard_in(alone, place.bow);
    double peak_pa = 0.0;
    for (const double sample : in_place) peak_pa = std::max(peak_pa, std::abs(sample));
    quietest_peak_pa = std::min(quietest_peak_pa, peak_pa);

    Scene quiet = scene;
    quiet.full_scale_db = 122.0;
    const auto hush = background(length, scene.rate_hz, 0.0, 3.0, dice);  // total silence would be called a gate
    mix(in_place, hush);
    mix(alone, hush);
    one.truth = shot::measure_shot(clip_of(in_place, quiet, false), {122.0}, {}).shot;
    if (scene.room_s > 0.0) one.truth.ring_down = shot::measure_shot(clip_of(alone, quiet, false), {122.0}, {}).shot.ring_down;

    std::vector<double> target(length, 0.0);
    auto impact = shot;
    impact.impact_lag_s = scene.lag_s;
    shot::add_synthetic_shot(target, scene.rate_hz, kEdge_s, impact, noise_seed);
    for (std::size_t n = 0; n < length; ++n) target[n] -= alone[n] - hush[n];
    std::vector<double> company(length, 0.0);
    if (scene.talk_db > 0.0) add_talk(company, scene.rate_hz, kEdge_s + dice.between(0.05, 0.22), scene.talk_db, dice);
    if (scene.second_shot_below_db > 0.0) {
      auto other = bow_of(dice);
      other.edge_peak_db -= scene.second_shot_below_db;
      other.thump_db -= scene.second_shot_below_db;
      for (auto& tone : other.tones) tone.level_db -= scene.second_shot_below_db;
      other.release_lag_s = 0.0;
      shot::add_synthetic_shot(company, scene.rate_hz, kEdge_s + dice.between(0.07, 0.25), other, noise_seed + 1);
    }
    auto wave = in_place;
    mix(wave, heard_in(std::move(target), place.target));
    mix(wave, heard_in(std::move(company), place.aside));
    if (scene.rustle) {
      add_rustle(wave, scene.rate_hz, 0.0, kEdge_s - dice.between(0.05, 0.3), dice.between(44.0, 60.0), dice);
      add_rustle(wave, scene.rate_hz, kEdge_s + scene.lag_s + dice.between(0.25, 0.5), kLength_s, dice.between(44.0, 60.0), dice);
    }
    mix(wave, background(length, scene.rate_hz, scene.background_db, scene.slope_db, dice));
    add_lines(wave, scene, 6.0 * dice.uniform());
    waves.push_back(std::move(wave));
  }
  for (std::size_t k = 0; k < shots.size(); ++k) {
    record(waves[k], scene, quietest_peak_pa);
    shots[k].gain_db = gain_db(scene, quietest_peak_pa);
    shots[k].clip = clip_of(waves[k], scene, scene.impact_known);
  }
  return shots;
}

Heard hear(const Scene& scene, const std::vector<SceneShot>& shots) {
  Heard heard;
  std::vector<shot::ChainEvidence> evidence;
  std::vector<shot::RoomEvidence> rooms;
  for (const SceneShot& one : shots) {
    auto measured = shot::measure_shot(one.clip, {scene.full_scale_db - one.gain_db}, {});
    evidence.push_back(std::move(measured.evidence));
    rooms.push_back({shot::impact_decay_s(one.clip, {}), {}});
    for (const auto& band : measured.shot.ring_down.bands) rooms.back().shot_s.push_back(band.late_s);
    heard.shots.push_back(std::move(measured.shot));
  }
  auto chain = shot::chain_findings(evidence, {scene.rate_hz, scene.lossy});
  heard.recording = std::move(chain.recording);
  if (const auto room = shot::judge_room(rooms)) heard.recording.push_back(*room);
  for (std::size_t k = 0; k < heard.shots.size(); ++k) {
    auto& findings = heard.shots[k].findings;
    findings.insert(findings.end(), chain.per_shot[k].begin(), chain.per_shot[k].end());
    shot::void_numbers(heard.shots[k], findings);
    shot::void_numbers(heard.shots[k], heard.recording);
  }
  return heard;
}

bool said(const Heard& heard, const std::string& code) {
  const auto carries = [&](const std::vector<Finding>& findings) {
    return std::ranges::any_of(findings, [&](const Finding& finding) { return finding.code == code && finding.severity != Severity::note; });
  };
  if (carries(heard.recording)) return true;
  const auto count = std::ranges::count_if(heard.shots, [&](const shot::Shot& shot) { return carries(shot.findings); });
  return 2 * count >= static_cast<std::ptrdiff_t>(heard.shots.size());
}

}  // namespace ringfall::hard_ground
