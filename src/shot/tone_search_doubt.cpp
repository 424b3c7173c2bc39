// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_doubt.h"

#include <algorithm>
#include <cmath>

namespace ringfall::shot {
namespace {

/// A line further than this share of its gate's half lobe from an accepted tone is another one (as in find_candidates).
constexpr double kOwnLobe = 0.8;

bool is_accepted(const BandView& view, const Candidate& candidate, std::span<const FittedTone> tones) {
  const double lobe_hz = kGateLobe / view.spectra[candidate.gate].gate.length_s;
  return std::any_of(tones.begin(), tones.end(), [&](const FittedTone& tone) {
    return std::abs(tone.frequency_hz - candidate.frequency_hz) < kOwnLobe * lobe_hz;
  });
}

}  // namespace

std::vector<FittedTone> doubtful_lines(const BandView& view, std::span<const TailSound::Steady> steady,
                                       std::span<const FittedTone> tones, double hysteresis_db) {
  std::vector<FittedTone> doubtful;
  if (view.spectra.empty()) return doubtful;
  BandView lenient = view;
  lenient.rules.least_excess_db -= hysteresis_db;
  for (const Candidate& candidate : find_candidates(lenient, steady)) {
    if (is_accepted(view, candidate, tones)) continue;
    const auto decay = decay_of(view, candidate);
    if (!decay) continue;
    FittedTone line;
    line.frequency_hz = candidate.frequency_hz;
    line.decay_per_s = *decay;
    line.mean_square = clean_power(candidate, candidate.gate) /
                       gate_gain(view.spectra[candidate.gate].gate, *decay, view.start_s);
    // Never louder than the first gate heard it.
    line.mean_square = std::min(line.mean_square, 2.0 * candidate.power.front() /
                                                      gate_gain(view.spectra.front().gate, *decay, view.start_s));
    doubtful.push_back(line);
  }
  return doubtful;
}

}  // namespace ringfall::shot
