// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/setup_sound.h"

#include <algorithm>


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
  const auto& ring = shot.ring_down;
  if (portrait.decay_a && (ring.early_s || ring.late_s)) decays_a_.push_back(on_grid(*portrait.decay_a));
  if (portrait.decay_z && (ring.early_z_s || ring.late_z_s)) decays_z_.push_back(on_grid(*portrait.decay_z));
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
  return sound;
}

}  // namespace ringfall::report
