// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_fit.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include "base/units.h"
#include "signal/damped_sinusoids.h"

namespace ringfall::shot {
namespace {

using signal::DampedSinusoid;

/// From here on an early fit is good enough (amplitude within about 5 %, or 12 % for what dies fast and stands in the skirts
/// of others): no later start is sought.
constexpr double kPlentiful_db = 28.0;
constexpr double kEnough_db = 18.0;
constexpr double kEarlyLess_db = 20.0;  // an early gate may show this much less than the best one
/// Without a second look the line must stand this much higher, and the fit explain this much of its band.
constexpr double kOneLookMore_db = 5.0;
constexpr double kOneLookExplained = 0.9;
/// The fitted tone must itself account for the line, less what noise may have added.
constexpr double kFitLess_db = 2.0;
/// A tone that rings no longer than this times the noise around it must stand this much higher.
constexpr double kOverNoiseRing = 1.3;
constexpr double kNoiseRingMore_db = 6.0;
/// Least ring time of a tone: below, 20 periods of a low tone and a whole gate of a high one are over before it counts.
constexpr double kLeastRing_s = 0.025;
/// A tone dies by at least this much within the tail, else it is steady (or its ring time a guess).
constexpr double kLeastFall_db = 1.0;
constexpr double kMostDecayError = 0.35;
/// Further components beside a candidate's nearest: this close in level, and this sure.
constexpr double kCompanion = 0.03;
constexpr double kCompanionSure = 8.0;
/// A gliding string needs several steady sinusoids: beside the lasting one, a companion this close that dies this much
/// faster is the glide, not a tone.
constexpr double kGlideNear = 0.03;
constexpr double kGlideFaster = 1.6;

/// The gate whose begin the fit starts at.
std::size_t start_gate(const Candidate& candidate) {
  const double enough_db =
      std::clamp(candidate.excess_db[candidate.gate] - kEarlyLess_db, kEnough_db, kPlentiful_db);
  for (std::size_t g = 0; g < candidate.gate; ++g)
    if (candidate.excess_db[g] >= enough_db) return g;
  return candidate.gate;
}

/// Where one sinusoid a candidate leaves no more than noise would, there is nothing else to look for.
constexpr double kLeftByOne = 0.03;
constexpr double kLeftByNoise = 15.0;  // times noise over line: about the bins of a band over those of a line

class Fitter {
 public:
  Fitter(const BandView& view, std::size_t shot) : view_(view), band_(*view.bands[shot]) {}

  struct Start {
    signal::TailSpectrum spectrum;
    double begin_s;   ///< of its first sample, after the edge
    double length_s;
  };

  const Start& start(std::size_t gate) {
    auto found = starts_.find(gate);
    if (found != starts_.end()) return found->second;
    const double want = (view_.spectra[gate].gate.begin_s - band_.begin_s) * band_.rate_hz;
    const auto first = static_cast<std::size_t>(std::max(0.0, std::ceil(want)));
    const auto end = std::min(band_.pressure_pa.size(),
                              static_cast<std::size_t>((view_.tail_end_s - band_.begin_s) * band_.rate_hz));
    const std::vector<double> samples(band_.pressure_pa.begin() + static_cast<std::ptrdiff_t>(first),
                                      band_.pressure_pa.begin() + static_cast<std::ptrdiff_t>(end));
    signal::TailSpectrum spectrum(samples, band_.rate_hz);
    const double length_s = static_cast<double>(spectrum.length()) / band_.rate_hz;
    const double begin_s = band_.begin_s + static_cast<double>(first) / band_.rate_hz;
    return starts_.emplace(gate, Start{std::move(spectrum), begin_s, length_s}).first->second;
  }

  double half_width_hz(const Candidate& candidate, const Start& start) const {
    return std::max(5.0 / start.length_s, 1.2 / view_.spectra[candidate.gate].gate.length_s);
  }

 private:
  const BandView& view_;
  const TailSound::Band& band_;
  std::map<std::size_t, Start> starts_;
};

/// Candidates fitted together: the same start, bands less than half a band apart.
struct Group {
  std::vector<std::size_t> members;
  std::size_t gate = 0;
  double low_hz = 0.0, high_hz = 0.0;
};

std::vector<Group> group(std::span<const Candidate> candidates, Fitter& fitter, double nyquist_hz) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const std::size_t gate = start_gate(candidates[i]);
    const double half = fitter.half_width_hz(candidates[i], fitter.start(gate));
    const double low = std::max(1.0, candidates[i].frequency_hz - half);
    const double high = std::min(0.98 * nyquist_hz, candidates[i].frequency_hz + half);
    auto same = std::find_if(groups.rbegin(), groups.rend(), [&](const Group& g) {
      return g.gate == gate && g.high_hz + half > low && g.members.size() < 5;
    });
    if (same == groups.rend()) {
      groups.push_back({{i}, gate, low, high});
    } else {
      same->members.push_back(i);
      same->high_hz = std::max(same->high_hz, high);
    }
  }
  return groups;
}

/// One sinusoid a candidate from what the gates say; the full search of the band only where that leaves something.
signal::DampedSinusoidFit fit_group(const BandView& view, std::span<const Candidate> candidates, const Group& group,
                                    const Fitter::Start& start) {
  constexpr double kUsualRing_s = 0.25;
  signal::DampedSinusoidLimits limits;
  std::vector<DampedSinusoid> initial;
  double may_stay = kLeftByOne;
  for (const std::size_t i : group.members) {
    DampedSinusoid tone;
    tone.frequency_hz = candidates[i].frequency_hz;
    tone.decay_per_s = decay_of(view, candidates[i]).value_or(3.0 * std::numbers::ln10 / kUsualRing_s);
    initial.push_back(tone);
    may_stay = std::max(may_stay, kLeftByNoise * std::pow(10.0, -0.1 * candidates[i].excess_db[group.gate]));
  }
  const auto one_each =
      signal::refine_damped_sinusoids(start.spectrum, group.low_hz, group.high_hz, initial, limits);
  if (one_each.sinusoids.size() == group.members.size() && 1.0 - one_each.explained <= may_stay) return one_each;
  limits.max_count = static_cast<int>(std::min<std::size_t>(8, group.members.size() + 1));
  return signal::fit_damped_sinusoids(start.spectrum, group.low_hz, group.high_hz, limits);
}

/// `excess` in dB: of the tone over the noise where its candidate stands highest.
bool believable(const Candidate& candidate, const DampedSinusoid& tone, double excess, double explained,
                const BandView& view) {
  const double ring_s = tone.ring_time_s();
  const double most_s = 60.0 / kLeastFall_db * (view.tail_end_s - view.start_s);
  if (ring_s < kLeastRing_s || ring_s > most_s) return false;
  if (tone.decay_sd_per_s > kMostDecayError * tone.decay_per_s && ring_s < 0.5 * most_s) return false;
  const double least = view.rules.least_excess_db;
  if (excess < least - kFitLess_db) return false;
  if (!candidate.seen_again && (excess < least + kOneLookMore_db || explained < kOneLookExplained)) return false;
  if (candidate.noise_ring_s > 0 && ring_s < kOverNoiseRing * candidate.noise_ring_s &&
      excess < least + kNoiseRingMore_db)
    return false;
  return true;
}

bool is_steady_tone(const DampedSinusoid& tone, double mean_square, double length_s,
               std::span<const TailSound::Steady> steady) {
  for (const auto& one : steady) {
    const double of_steady = kReferencePressure_pa * kReferencePressure_pa * std::pow(10.0, 0.1 * one.level_db);
    if (std::abs(one.frequency_hz - tone.frequency_hz) < std::max(2.0, 0.8 / length_s) &&
        mean_square < kOverSteady * of_steady)
      return true;
  }
  return false;
}

}  // namespace

std::vector<FittedTone> fit_candidates(const BandView& view, std::size_t shot, std::span<const Candidate> candidates,
                                       std::span<const TailSound::Steady> steady) {
  std::vector<FittedTone> tones;
  if (candidates.empty()) return tones;
  Fitter fitter(view, shot);
  for (const Group& group : group(candidates, fitter, 0.5 * view.bands[shot]->rate_hz)) {
    const Fitter::Start& start = fitter.start(group.gate);
    const signal::DampedSinusoidFit fit = fit_group(view, candidates, group, start);
    for (const std::size_t i : group.members) {
      const Candidate& candidate = candidates[i];
      const Gate& gate = view.spectra[candidate.gate].gate;
      const double reach_hz = 1.5 / gate.length_s;
      // Strength is judged where the line was seen, not at the start, where a short burst of noise may be louder.
      const auto seen = [&](const DampedSinusoid& tone) {
        return 0.5 * tone.amplitude * tone.amplitude * gate_gain(gate, tone.decay_per_s, start.begin_s);
      };
      double strongest = 0.0;
      std::vector<const DampedSinusoid*> near;
      for (const DampedSinusoid& tone : fit.sinusoids) {
        if (std::abs(tone.frequency_hz - candidate.frequency_hz) > reach_hz) continue;
        const bool nearest_here = std::all_of(group.members.begin(), group.members.end(), [&](std::size_t j) {
          return std::abs(tone.frequency_hz - candidates[j].frequency_hz) >=
                 std::abs(tone.frequency_hz - candidate.frequency_hz);
        });
        if (!nearest_here) continue;
        near.push_back(&tone);
        strongest = std::max(strongest, seen(tone));
      }
      for (const DampedSinusoid* tone : near) {
        const double here = seen(*tone);
        if (here < strongest &&
            (here < kCompanion * strongest || tone->amplitude < kCompanionSure * tone->amplitude_sd))
          continue;
        const bool glide = std::any_of(near.begin(), near.end(), [&](const DampedSinusoid* other) {
          return std::abs(other->frequency_hz - tone->frequency_hz) < kGlideNear * tone->frequency_hz &&
                 tone->decay_per_s > kGlideFaster * other->decay_per_s;
        });
        if (glide) continue;
        const double noise = candidate.noise[candidate.gate];
        const double excess = std::min(candidate.excess_db[candidate.gate],
                                       noise > 0 ? 10.0 * std::log10(here / noise) : 0.0);
        if (!believable(candidate, *tone, excess, fit.explained, view)) continue;
        if (is_steady_tone(*tone, here, start.length_s, steady)) continue;
        FittedTone found;
        found.candidate = i;
        found.frequency_hz = tone->frequency_hz;
        found.decay_per_s = tone->decay_per_s;
        found.mean_square = 0.5 * tone->amplitude * tone->amplitude *
                            std::exp(2.0 * tone->decay_per_s * (start.begin_s - view.start_s));
        // Two close tones may beat to nothing in the first gate; a single one must show there.
        if (near.size() == 1)
          found.mean_square = std::min(found.mean_square,
                                       2.0 * candidate.power.front() /
                                           gate_gain(view.spectra.front().gate, tone->decay_per_s, view.start_s));
        tones.push_back(found);
      }
    }
  }
  std::sort(tones.begin(), tones.end(),
            [](const FittedTone& one, const FittedTone& other) { return one.frequency_hz < other.frequency_hz; });
  return tones;
}

}  // namespace ringfall::shot
