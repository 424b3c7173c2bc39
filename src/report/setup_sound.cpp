// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/setup_sound.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "shot/pressure_clip.h"
#include "stats/summary.h"

namespace ringfall::report {
namespace {

constexpr double kStep_s = 0.001;

/// The curve on the common grid, by straight lines between its points.
std::vector<double> on_grid(const signal::Decay& decay) {
  std::vector<double> levels;
  const auto& curve = decay.curve_db;
  for (std::size_t k = 0;; ++k) {
    const double place = static_cast<double>(k) * kStep_s / decay.step_s;
    const auto below = static_cast<std::size_t>(place);
    if (below + 1 >= curve.size()) return levels;
    const double part = place - static_cast<double>(below);
    levels.push_back(curve[below] + part * (curve[below + 1] - curve[below]));
  }
}

MedianDecay median_of(const std::vector<std::vector<double>>& curves) {
  MedianDecay median;
  median.step_s = kStep_s;
  median.shots = curves.size();
  for (std::size_t k = 0; !curves.empty(); ++k) {
    std::vector<double> levels;
    for (const auto& curve : curves) {
      if (k < curve.size()) levels.push_back(curve[k]);
    }
    // The ended ones rank lowest: the middle must be among those that are left.
    const std::size_t ended = curves.size() - levels.size();
    if (2 * ended >= curves.size()) break;
    std::ranges::sort(levels);
    const std::size_t upper = curves.size() / 2 - ended;
    const bool even = curves.size() % 2 == 0;
    if (even && upper == 0) break;
    median.level_db.push_back(even ? 0.5 * (levels[upper - 1] + levels[upper]) : levels[upper]);
  }
  return median;
}

}  // namespace

SetUpEar::SetUpEar(std::string setup, const shot::MeasureSettings& settings) : settings_(settings) {
  sound_.setup = std::move(setup);
}

void SetUpEar::add(const shot::Clip& clip, const shot::Shot& shot, const shot::Scale& scale) {
  const auto portrait = shot::portrait_of(clip, scale, settings_);
  offset_db_ = scale.printed_offset_db();
  const auto& ring = shot.ring_down;
  if (portrait.decay_a && (ring.early_s || ring.late_s)) decays_a_.push_back(on_grid(*portrait.decay_a));
  if (portrait.decay_z && (ring.early_z_s || ring.late_z_s)) decays_z_.push_back(on_grid(*portrait.decay_z));
  if (!shot.hum && !shot.ping) return;
  const shot::PressureClip pressure(clip, scale);
  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample) + clip.onset_fraction;
  tails_.push_back(
      shot::cut_tail(pressure.all(), clip.sample_rate_hz, edge, portrait.undisturbed_s, settings_));
}

void SetUpEar::add_typical(const shot::Clip& clip, const shot::Shot& shot, const shot::Scale& scale,
                           const std::string& file) {
  sound_.typical_file = file;
  sound_.typical_shot = shot;
  sound_.typical = shot::portrait_of(clip, scale, settings_);
}

SetUpSound SetUpEar::sound() const {
  SetUpSound sound = sound_;
  sound.decay_a = median_of(decays_a_);
  sound.decay_z = median_of(decays_z_);
  sound.tails = tails_.size();
  if (tails_.empty()) return sound;
  const auto pooled = shot::find_tones(tails_, settings_);
  sound.tail = pooled.density;
  for (float& level_db : sound.tail.density_db) level_db += static_cast<float>(offset_db_);
  for (float& level_db : sound.tail.noise_db) level_db += static_cast<float>(offset_db_);
  for (const shot::Tone& tone : pooled.tones) sound.tones.push_back({tone, {}});
  for (const shot::TailSound& tail : tails_) {
    for (const shot::Tone& heard : shot::read_tones(tail, pooled.tones, settings_)) {
      const auto nearest = std::ranges::min_element(sound.tones, {}, [&heard](const SetUpTone& entry) {
        return std::abs(entry.tone.frequency_hz - heard.frequency_hz);
      });
      nearest->levels_db.push_back(heard.level_db + offset_db_);
    }
  }
  for (SetUpTone& entry : sound.tones) entry.tone.level_db += offset_db_;
  return sound;
}

}  // namespace ringfall::report
