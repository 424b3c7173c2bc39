// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "compare/session.h"
#include "compare/tone_pool.h"
#include "stats/difference.h"

namespace ringfall::compare {

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
  std::optional<stats::Difference> level_db;     ///< set-up minus baseline; nullopt: too few shots
  std::optional<stats::Difference> ring_time_s;  ///< the same; from shots that show the ring time themselves
  double adjusted_p_level = 1.0;                 ///< after Holm over all levels and ring times of the set-up's tones
  double adjusted_p_ring_time = 1.0;
  /// Shots of one set-up only hide the tone: they count with the most they may hide, so that the change is at least `level_db`. Where shots of
  /// both hide it nothing bounds the change: then level_db is nullopt and both_hide.
  bool level_at_least = false;
  bool both_hide = false;
  bool level_assumed = false;      ///< how much blocks wander is assumed, not known: no claim
  bool ring_time_assumed = false;

  /// Is it told that the level changed, or that the tone came or went? Not by chance (after Holm), and not from one block each.
  bool level_told() const;
  bool ring_time_told() const;

  double frequency_hz() const { return (baseline ? baseline : setup)->tone.frequency_hz; }
  /// Change of level plus 10 lg of the ratio of ring times: the energy of a decaying tone. Both tones are there. Level only where the
  /// shots show no difference of ring time to be had.
  double energy_db() const;
};

/// Pairs the tones of two set-ups: nearest pairs (in ratio) first, each tone once. In order of frequency. The differences are taken
/// within sessions, over blocks (stats/block_spread.h, spread of both set-ups' blocks). A tone heard with one set-up only has a change of level
/// when the other was listened to for it: at least down (or up) to what its shots may hide.
/// Definition: docs/measures/comparison.md#tones. Tests: compare.ToneChange.*
std::vector<ToneChange> tone_changes(const Session& session, const SetUpTones& baseline, const SetUpTones& setup);

/// Which part of the sound changed most: of the tones in both whose level or ring time is told to have changed, the one
/// whose energy changed most; nullptr: none.
const ToneChange* most_changed(const std::vector<ToneChange>& changes);

/// Of the tones in both that have a difference of level, the one whose level changed most, sure or not; nullptr: none has.
const ToneChange* largest_level_change(const std::vector<ToneChange>& changes);

inline constexpr double kToneAlpha = 0.05;

}  // namespace ringfall::compare
