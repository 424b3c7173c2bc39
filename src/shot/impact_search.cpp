// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/impact_search.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "base/units.h"
#include "signal/onset.h"

namespace ringfall::shot {
namespace {

constexpr double kReducedRate_hz = 6000.0;
constexpr double kImpactRumble_hz = 80.0;
constexpr std::size_t kWindow = 6;        // hops of 1 ms
constexpr double kLeastRise_db = 4.0;
constexpr double kFaintestImpact_db = -30.0;
constexpr double kEchoes_s = 0.060;
constexpr double kFaintestInEchoes_db = -18.0;
constexpr double kImpactsApart_s = 0.025;
constexpr double kImpactSilence = 1e-14;

/// The sound at some 6 kHz: groups of samples averaged.
std::vector<float> reduced(std::span<const float> samples, std::size_t group) {
  std::vector<float> out;
  out.reserve(samples.size() / group);
  for (std::size_t n = 0; n + group <= samples.size(); n += group) {
    float sum = 0.0F;
    for (const float sample : samples.subspan(n, group)) sum += sample;
    out.push_back(sum / static_cast<float>(group));
  }
  return out;
}

/// Two poles at 80 Hz.
void remove_rumble(std::vector<float>& samples, double rate_hz) {
  const auto share = static_cast<float>(1.0 - std::exp(-2.0 * std::numbers::pi * kImpactRumble_hz / rate_hz));
  for (int pass = 0; pass < 2; ++pass) {
    float slow = samples.empty() ? 0.0F : samples[0];
    for (float& sample : samples) {
      slow += share * (sample - slow);
      sample -= slow;
    }
  }
}

/// One way of listening: a wave and the power of the 6 ms that begin at each hop.
struct Channel {
  std::vector<float> wave;
  std::vector<double> powers;

  Channel(std::vector<float> samples, std::size_t hop) : wave(std::move(samples)) {
    std::vector<double> hops;
    for (std::size_t n = 0; n + hop <= wave.size(); n += hop) {
      double sum = 0.0;
      for (std::size_t k = n; k < n + hop; ++k) sum += static_cast<double>(wave[k]) * static_cast<double>(wave[k]);
      hops.push_back(sum / static_cast<double>(hop * kWindow));
    }
    for (std::size_t k = 0; k + kWindow <= hops.size(); ++k) {
      double sum = kImpactSilence;
      for (std::size_t j = k; j < k + kWindow; ++j) sum += hops[j];
      powers.push_back(sum);
    }
  }
  /// dB over the loudest stretch that began `look` to 6 hops before.
  double rise_db(std::size_t k, std::size_t look) const {
    if (k < kWindow || k >= powers.size()) return 0.0;
    const auto begin = powers.begin() + static_cast<std::ptrdiff_t>(k - std::min(k, look));
    const auto end = powers.begin() + static_cast<std::ptrdiff_t>(k - kWindow + 1);
    return power_to_db(powers[k] / *std::max_element(begin, end));
  }
};

}  // namespace

std::vector<ImpactCandidate> impact_candidates(std::span<const float> after_edge, double sample_rate_hz,
                                               const ImpactWindow& window) {
  const auto group = static_cast<std::size_t>(std::max(std::lround(sample_rate_hz / kReducedRate_hz), 1L));
  const double rate_hz = sample_rate_hz / static_cast<double>(group);
  const auto hop = static_cast<std::size_t>(std::lround(rate_hz / 1000.0));
  const double hop_s = static_cast<double>(hop) / rate_hz;
  auto wave = reduced(after_edge, group);
  remove_rumble(wave, rate_hz);
  std::vector<float> steps(wave.size(), 0.0F);
  for (std::size_t n = 1; n < wave.size(); ++n) steps[n] = wave[n] - wave[n - 1];
  const Channel dull(std::move(wave), hop);
  const Channel bright(std::move(steps), hop);
  std::vector<ImpactCandidate> found;
  if (dull.powers.empty()) return found;
  const double shot_power = dull.powers[0];

  std::vector<double> rises(dull.powers.size(), 0.0);
  const auto begin = static_cast<std::size_t>(std::max(window.earliest_s / hop_s - 4.0, 10.0));
  const auto end = std::min(rises.size(), static_cast<std::size_t>(window.latest_s / hop_s) + 4);
  for (std::size_t k = begin; k < end; ++k) {
    // Right after the shot everything falls fast: a short past is the fair one.
    const auto look = static_cast<std::size_t>(std::clamp(0.4 * static_cast<double>(k), 10.0, 40.0));
    rises[k] = std::max(dull.rise_db(k, look), bright.rise_db(k, look));
  }
  const auto apart = static_cast<std::size_t>(kImpactsApart_s / hop_s);
  for (std::size_t k = begin; k < end; ++k) {
    if (rises[k] < kLeastRise_db) continue;
    const auto from = rises.begin() + static_cast<std::ptrdiff_t>(k - std::min(k, apart));
    const auto to = rises.begin() + static_cast<std::ptrdiff_t>(std::min(rises.size(), k + apart));
    if (rises[k] < *std::max_element(from, to)) continue;
    const double before = dull.powers[k - kWindow];
    ImpactCandidate candidate;
    candidate.level_db = power_to_db(std::max(dull.powers[k] - before, 1e-4 * shot_power + kImpactSilence) / (shot_power + kImpactSilence));
    candidate.rise_db = rises[k];
    const Channel& clearest = bright.powers[k] * dull.powers[k - kWindow] > dull.powers[k] * bright.powers[k - kWindow] ? bright : dull;
    const auto rise = signal::steepest_rise(clearest.wave, rate_hz, (k - 4) * hop, (k + kWindow) * hop, kImpactSilence);
    candidate.lag_s = rise.position / rate_hz;
    const double faintest_db = candidate.lag_s < kEchoes_s ? kFaintestInEchoes_db : kFaintestImpact_db;
    if (candidate.level_db < faintest_db) continue;
    if (candidate.lag_s < window.earliest_s || candidate.lag_s > window.latest_s) continue;
    found.push_back(candidate);
  }
  return found;
}

}  // namespace ringfall::shot
