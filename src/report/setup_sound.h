// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/tone_pool.h"
#include "shot/clip.h"
#include "shot/portrait.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::report {

/// Median over the shots of a set-up of the decay curve, dB re its start, every step_s after the loud edge. A shot whose curve
/// has ended counts as lowest, and the median ends where half of the shots have: the lasting ones alone don't lengthen it.
struct MedianDecay {
  double step_s = 0.001;
  std::vector<double> level_db;
  std::size_t shots = 0;
};

/// What the sound of one set-up looks like, over all its shots that nothing spoils.
struct SetUpSound {
  std::string setup;
  MedianDecay decay_a;
  MedianDecay decay_z;
  compare::SetUpTones pooled;      ///< of the pooled tails; set by session_report
  /// The shot nearest the set-up's mean of the main number.
  std::string typical_file;
  std::optional<shot::Shot> typical_shot;
  std::optional<shot::Portrait> typical;
};

/// Takes a set-up's shots one by one and keeps of each what the pictures need (about 60 kB). Tests: report.SetUpEar.*
class SetUpEar {
 public:
  SetUpEar(std::string setup, const shot::MeasureSettings& settings);

  /// The clip of one shot, with its numbers (a number that a finding voided is not there, and its curve is left out).
  void add(const shot::Clip& clip, const shot::Shot& shot, const shot::Scale& scale);
  /// Names the typical shot and takes its portrait.
  void add_typical(const shot::Clip& clip, const shot::Shot& shot, const shot::Scale& scale, const std::string& file);
  SetUpSound sound() const;

 private:
  shot::MeasureSettings settings_;
  SetUpSound sound_;
  std::vector<std::vector<double>> decays_a_;  // on the common grid
  std::vector<std::vector<double>> decays_z_;
};

}  // namespace ringfall::report
