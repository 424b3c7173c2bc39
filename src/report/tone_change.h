// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "shot/shot.h"
#include "stats/difference.h"

namespace ringfall::report {

/// A tone of a set-up (found in the pooled tails of its shots) and what each shot shows of it.
struct SetUpTone {
  shot::Tone tone;                    ///< mean level (as printed) and ring time over the shots
  std::vector<double> levels_db;      ///< of the shots in which it was heard
};

/// Is it one tone in both set-ups?
enum class ToneMatch {
  same,           ///< within +-kSameTone
  perhaps_moved,  ///< both alone, within +-kMovedTone: perhaps one part, shifted by added mass
  gone,           ///< found with the baseline only
  added           ///< found with the set-up only
};
inline constexpr double kSameTone = 0.03;
inline constexpr double kMovedTone = 0.08;

/// One tone of the baseline beside its counterpart.
struct ToneChange {
  ToneMatch match = ToneMatch::same;
  std::optional<SetUpTone> baseline;
  std::optional<SetUpTone> setup;
  std::optional<stats::Difference> level_db;  ///< set-up minus baseline, shots as units; nullopt: too few shots
};

/// Pairs the tones of two set-ups: nearest pairs (in ratio) first, each tone once. In order of frequency.
/// Definition: docs/measures/report.md#tones. Tests: report.ToneChange.*
std::vector<ToneChange> tone_changes(std::span<const SetUpTone> baseline, std::span<const SetUpTone> setup);

/// Which part of the sound changed most: of the tones whose level's interval excludes no change, the one whose energy (level
/// plus ring time) changed most; which tones came and went. Empty without tones.
std::string tone_sentence(const std::vector<ToneChange>& changes, const std::string& setup, const std::string& baseline);

/// "same tone", "perhaps the same, moved by -4.2 %", "only with the baseline", "only with this set-up".
std::string match_words(const ToneChange& change);

}  // namespace ringfall::report
