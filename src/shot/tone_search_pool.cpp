// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_pool.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace ringfall::shot {
namespace {

/// Mean over the shots' fits of one line: frequency, decay by its logarithm, level in dB.
FittedTone mean_of(std::span<const FittedTone> fits) {
  FittedTone mean = fits.front();
  double f = 0.0, decay = 0.0, level = 0.0;
  for (const FittedTone& fit : fits) {
    f += fit.frequency_hz;
    decay += std::log(fit.decay_per_s);
    level += std::log(std::max(fit.mean_square, 1e-30));
  }
  const auto n = static_cast<double>(fits.size());
  mean.frequency_hz = f / n;
  mean.decay_per_s = std::exp(decay / n);
  mean.mean_square = std::exp(level / n);
  return mean;
}

std::optional<FittedTone> from_gates(const BandView& view, const Candidate& candidate) {
  if (!candidate.seen_again) return std::nullopt;
  const auto decay = decay_of(view, candidate);
  if (!decay) return std::nullopt;
  const double ring_s = 3.0 * std::numbers::ln10 / *decay;
  if (candidate.noise_ring_s > 0 && ring_s < 1.3 * candidate.noise_ring_s) return std::nullopt;
  FittedTone tone;
  tone.frequency_hz = candidate.frequency_hz;
  tone.decay_per_s = *decay;
  tone.mean_square = clean_power(candidate, candidate.gate) / gate_gain(view.spectra[candidate.gate].gate, *decay, view.start_s);
  return tone;
}

}  // namespace

std::vector<FittedTone> pooled_fits(const BandView& view, std::span<const Candidate> candidates,
                                    std::span<const TailSound::Steady> steady) {
  const std::size_t shots = view.bands.size();
  if (shots == 1) return fit_candidates(view, 0, candidates, steady);
  std::vector<std::vector<std::vector<FittedTone>>> fits(candidates.size());  // [candidate][shot][line]
  for (auto& of_candidate : fits) of_candidate.resize(shots);
  for (std::size_t s = 0; s < shots; ++s)
    for (const FittedTone& fit : fit_candidates(view, s, candidates, steady)) fits[fit.candidate][s].push_back(fit);
  std::vector<FittedTone> tones;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    // How many lines most shots resolve; those shots speak for the candidate, line by line.
    std::vector<std::size_t> counts;
    for (const auto& of_shot : fits[i]) counts.push_back(of_shot.size());
    std::sort(counts.begin(), counts.end());
    const std::size_t lines = counts[counts.size() / 2];
    if (lines == 0) {
      if (auto tone = from_gates(view, candidates[i])) {
        tone->candidate = i;
        tones.push_back(*tone);
      }
      continue;
    }
    for (std::size_t line = 0; line < lines; ++line) {
      std::vector<FittedTone> same;
      for (const auto& of_shot : fits[i])
        if (of_shot.size() == lines) same.push_back(of_shot[line]);
      tones.push_back(mean_of(same));
    }
  }
  std::sort(tones.begin(), tones.end(),
            [](const FittedTone& one, const FittedTone& other) { return one.frequency_hz < other.frequency_hz; });
  return tones;
}

}  // namespace ringfall::shot
