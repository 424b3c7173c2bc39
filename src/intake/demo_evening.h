// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "shot/synthetic_shot.h"

namespace ringfall::intake {

/// The invented evening the demo plays in. Nobody in it exists, no bow was recorded: every sound is synthesised.

/// What the archer of the story said of one shot.
struct SaidOfShot {
  int loud = 0;  ///< 0 .. 10
  int hum = 0;
  int ping = 0;
  int feel = 0;  ///< in the hand, 10 = best
  std::string words;
};

struct DemoShot {
  shot::SyntheticShot sound;
  SaidOfShot said;
};

/// One block of shots with one set-up, one recording.
struct DemoBlock {
  std::string file;
  std::string setup;
  int block = 0;
  std::string note;
  std::optional<double> added_mass_kg;
  std::string dropped;   ///< the archer's reason for leaving it out
  bool clipped = false;  ///< the faulty recording: the gain was left too high
  std::vector<DemoShot> shots;
};

/// Three set-ups in blocks A B C C B A A B C C B A, three shots each, and one faulty recording at the end. Always the same.
std::vector<DemoBlock> demo_blocks();

/// The recording of block `index` of these, full scale = 1, held to full scale as an integer file does.
std::vector<float> demo_samples(const std::vector<DemoBlock>& blocks, std::size_t index);

/// What is true of a set-up, because it was made so: what its shots have before placing, draw and chance.
struct DemoTruth {
  std::string setup;
  double quieter_db = 0.0;  ///< exposure level against the first
  double hum = 0.0;         ///< 0 .. 10
  double ping = 0.0;
  std::string words;
};

/// In the order of the set-ups' first blocks. Held against measured demo_true_shots(), and the verdicts against these: intake.Demo.*,
/// terminal.CompareOutput.*
const std::vector<DemoTruth>& demo_truths();

/// A shot of each set-up, nothing spread.
std::vector<shot::SyntheticShot> demo_true_shots();

/// The truths as a small table.
std::string demo_truth_text();

/// The story, for the folder's README.
std::string demo_story();

/// The room's floor [dB re 20 uPa] and the full-scale level of the story's microphone.
inline constexpr double kDemoFloor_db = 34.0;
inline constexpr double kDemoFullScale_db_spl = 118.0;
inline constexpr double kDemoRate_hz = 48000.0;
inline constexpr double kDemoSpacing_s = 6.0;

}  // namespace ringfall::intake
