// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_peaks.h"

#include <algorithm>
#include <cmath>

namespace ringfall::shot {
namespace {

/// A side with fewer bins than this has no median worth the name; the other side then speaks alone.
constexpr std::ptrdiff_t kLeastSideBins = 8;
/// Lines are first looked for against the median of a block this long; cheap, and 6 dB more forgiving.
constexpr std::size_t kBlock = 64;
constexpr double kBlockForgiveness = 0.25;

double median(std::vector<double>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

struct Neighbourhood {
  std::span<const double> power;
  double bin_hz;
  const PeakRules& rules;
  mutable std::vector<double> scratch;

  double side_median(double from_hz, double to_hz) const {
    const double lowest = rules.noise_low_hz, highest = rules.noise_high_hz;
    const auto last = static_cast<std::ptrdiff_t>(power.size()) - 1;
    const auto from = static_cast<std::ptrdiff_t>(std::ceil(std::max(from_hz, lowest) / bin_hz));
    const auto to = std::min(last, static_cast<std::ptrdiff_t>(std::floor(std::min(to_hz, highest) / bin_hz)));
    if (to - from + 1 < kLeastSideBins) return 0.0;
    scratch.assign(power.begin() + from, power.begin() + to + 1);
    return median(scratch);
  }

  double noise(double f) const {
    const double side = std::max(rules.side_hz, 0.5 * critical_band_hz(f));
    return std::max(side_median(f - rules.guard_hz - side, f - rules.guard_hz),
                    side_median(f + rules.guard_hz, f + rules.guard_hz + side));
  }
};

/// Least of the medians of the block around each bin and of its neighbours.
std::vector<double> block_noise(std::span<const double> power) {
  std::vector<double> medians;
  std::vector<double> scratch;
  for (std::size_t first = 0; first < power.size(); first += kBlock) {
    const std::size_t end = std::min(power.size(), first + kBlock);
    scratch.assign(power.begin() + static_cast<std::ptrdiff_t>(first),
                   power.begin() + static_cast<std::ptrdiff_t>(end));
    medians.push_back(median(scratch));
  }
  return medians;
}

}  // namespace

double critical_band_hz(double frequency_hz) {
  const double khz = 1e-3 * frequency_hz;
  return 25.0 + 75.0 * std::pow(1.0 + 1.4 * khz * khz, 0.69);
}

double least_excess_db(std::size_t shots) {
  // Upper 6e-6 of the mean of `shots` exponential values over its median (Wilson and Hilferty's cube), 1 in 100 over
  // the 1600 cells of a search; the geometric mean's upper tail is thinner. The median of a dozen cells is itself uncertain:
  // another 1.2 dB for one shot.
  const auto m = static_cast<double>(std::max<std::size_t>(1, shots));
  const double centre = 1.0 - 1.0 / (9.0 * m);
  const double ratio = std::pow(1.0 + 4.38 / (3.0 * std::sqrt(m)) / centre, 3.0);
  return std::max(6.0, 10.0 * std::log10(ratio) + 1.2 / std::sqrt(m));
}

double noise_around(std::span<const double> power, double bin_hz, const PeakRules& rules, double frequency_hz) {
  return Neighbourhood{power, bin_hz, rules, {}}.noise(frequency_hz);
}

std::vector<SpectrumPeak> find_peaks(std::span<const double> power, double bin_hz, const PeakRules& rules) {
  std::vector<SpectrumPeak> peaks;
  if (power.size() < 3 || !(bin_hz > 0)) return peaks;
  const Neighbourhood neighbourhood{power, bin_hz, rules, {}};
  const std::vector<double> coarse = block_noise(power);
  const double least = std::pow(10.0, 0.1 * rules.least_excess_db);
  const auto first = static_cast<std::size_t>(std::max(1.0, std::ceil(rules.low_hz / bin_hz)));
  const auto end = std::min(power.size() - 1, static_cast<std::size_t>(std::max(0.0, rules.high_hz / bin_hz)) + 1);
  for (std::size_t k = first; k < end; ++k) {
    if (!(power[k] > power[k - 1]) || power[k] < power[k + 1]) continue;
    const std::size_t block = k / kBlock;
    double rough = coarse[block];
    if (block > 0) rough = std::min(rough, coarse[block - 1]);
    if (block + 1 < coarse.size()) rough = std::min(rough, coarse[block + 1]);
    if (power[k] < kBlockForgiveness * least * rough) continue;
    const double noise = neighbourhood.noise(static_cast<double>(k) * bin_hz);
    if (!(noise > 0) || power[k] < least * noise) continue;
    const double a = std::log(std::max(power[k - 1], 1e-300)), b = std::log(power[k]),
                 c = std::log(std::max(power[k + 1], 1e-300));
    const double bend = 2.0 * b - a - c;
    const double shift = bend > 0 ? std::clamp(0.5 * (c - a) / bend, -0.5, 0.5) : 0.0;
    SpectrumPeak peak;
    peak.frequency_hz = (static_cast<double>(k) + shift) * bin_hz;
    peak.power = std::exp(b + 0.25 * (c - a) * shift);
    peak.noise = noise;
    peak.excess_db = 10.0 * std::log10(peak.power / noise);
    peaks.push_back(peak);
  }
  return peaks;
}

}  // namespace ringfall::shot
