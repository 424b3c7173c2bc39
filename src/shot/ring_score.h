// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

#include "shot/settings.h"
#include "shot/shot.h"
#include "shot/tail_tones.h"

namespace ringfall::shot {

/// N = integral from the start of the tail to tail_limit_s of max(0, 2^((L-40)/10) - 0.5) dt, in sone-like seconds;
/// L(t) the power sum of the tones, dB re 20 uPa. The fitted tones are followed to the same instant whatever the distance
/// to the target, so an early impact does not lower N.
/// `until_s` (after the edge) stops the integral earlier.
double ring_amount(std::span<const Tone> tones, ToneFamily family, const MeasureSettings& settings,
                   std::optional<double> until_s = std::nullopt);

/// 10 log2(1 + N/0.02) / log2(1 + 4/0.02), held to 0 .. 10.
double score_of(double ring_amount);

/// Hum or ping of one shot.
struct RingScore {
  /// 0 .. 10. 0.0: listened, nothing rings. nullopt: the clean tail is shorter than the family needs (`tail_too_short`),
  /// the band is missing, or (`masked`) a line was refused that, were it a tone, would carry more than 0.3 (beside tones
  /// heard: add more than 1.0), or a tone of 0.25 s that would add 2.5 points or more could not have been heard at all.
  std::optional<double> score;
  /// The score with the strongest tone that could hide in this tail beside those heard: over ring times of 0.08 s up, each as
  /// strong as the spectra let it be, and every refused line as if it were a tone. nullopt: nothing of the tail could be heard.
  std::optional<double> at_most;
  ScoreParts parts;                ///< strength in dB re 20 uPa; all nullopt without a tone
  bool tail_too_short = false;
  bool masked = false;
  bool mostly_extrapolated = false;  ///< more than half of N lies after the end of the clean tail
};

/// Scores `tones` (those of `family` in it), as heard in a tail described by `heard`: heard.tones of the same search, or
/// readings of a pooled one. family: hum or ping.
/// Source: own, docs/measures/hum_ping.md.  Tests: ring_score_test.cpp against closed forms, ladder_test.cpp.
RingScore ring_score(ToneFamily family, std::span<const Tone> tones, const TailTones& heard,
                     const MeasureSettings& settings);

}  // namespace ringfall::shot
