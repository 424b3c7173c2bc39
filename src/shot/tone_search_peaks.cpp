// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_peaks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "signal/critical_band.h"
#include "signal/median.h"

namespace ringfall::shot {
namespace {

/// A side with fewer bins than this has no median worth the name; the other side then speaks alone.
constexpr std::ptrdiff_t kLeastSideBins = 8;
/// One side alone misses what the other would have shown: 2 dB more caution.
constexpr double kOneSide = 1.6;
/// Lines are first looked for against the median of a block this long; cheap, and 6 dB more forgiving.
constexpr std::size_t kBlock = 64;
/// Every 4th of a block's bins, and not more than about this many of a side, go into its median: neighbours in a padded
/// spectrum say the same.
constexpr std::size_t kBlockStride = 4;
constexpr std::size_t kBlockValues = kBlock / kBlockStride;
constexpr std::size_t kBlocksAtOnce = 8;
constexpr std::ptrdiff_t kMostSideBins = 40;
constexpr double kBlockForgiveness = 0.25;

/// Reads the noise around a frequency; keeps its scratch memory from line to line.
class Neighbourhood {
 public:
  Neighbourhood(std::span<const double> power, double bin_hz, const PeakRules& rules, std::span<const double> known_hz)
      : power_(power), bin_hz_(bin_hz), rules_(rules), lines_hz_(known_hz.begin(), known_hz.end()) {}

  void add_line(double f) { lines_hz_.push_back(f); }

  /// What is more than `most` is not wanted exactly.
  double noise(double f, double most = std::numeric_limits<double>::infinity()) {
    const double side = std::max(rules_.side_hz, 0.5 * signal::critical_bandwidth_hz(f));
    const double left = side_median(f - rules_.guard_hz, -side);
    if (left > most) return left;
    const double right = side_median(f + rules_.guard_hz, side);
    return left > 0 && right > 0 ? std::max(left, right) : kOneSide * std::max(left, right);
  }

 private:
  /// Median from `from_hz` over `width_hz` (signed), twice as far when lines leave too little of it; 0 without enough bins.
  double side_median(double from_hz, double width_hz) {
    for (const double reach : {width_hz, 2.0 * width_hz}) {
      collect(std::min(from_hz, from_hz + reach), std::max(from_hz, from_hz + reach));
      if (std::ssize(scratch_) >= kLeastSideBins) return signal::upper_median_in_place(scratch_);
    }
    return 0.0;
  }

  void collect(double from_hz, double to_hz) {
    scratch_.clear();
    near_.clear();
    for (const double line : lines_hz_)
      if (line > from_hz - rules_.guard_hz && line < to_hz + rules_.guard_hz) near_.push_back(line);
    const auto last = static_cast<std::ptrdiff_t>(power_.size()) - 1;
    const auto from = static_cast<std::ptrdiff_t>(std::ceil(std::max(from_hz, rules_.noise_low_hz) / bin_hz_));
    const auto to =
        std::min(last, static_cast<std::ptrdiff_t>(std::floor(std::min(to_hz, rules_.noise_high_hz) / bin_hz_)));
    const std::ptrdiff_t stride = std::max<std::ptrdiff_t>(1, (to - from) / kMostSideBins);
    for (std::ptrdiff_t k = from; k <= to; k += stride) {
      const double f = static_cast<double>(k) * bin_hz_;
      const bool in_line = std::any_of(near_.begin(), near_.end(),
                                       [&](double line) { return std::abs(f - line) < rules_.guard_hz; });
      if (!in_line) scratch_.push_back(power_[static_cast<std::size_t>(k)]);
    }
  }

  std::span<const double> power_;
  double bin_hz_;
  const PeakRules& rules_;
  std::vector<double> lines_hz_, near_, scratch_;
};

/// Medians of kBlocksAtOnce whole blocks from power on: sorted side by side by Batcher's odd-even merges, which need no
/// branches, so it runs in vector registers.
void block_medians(const double* power, double* medians) {
  std::array<std::array<double, kBlocksAtOnce>, kBlockValues> rows;
  for (std::size_t row = 0; row < kBlockValues; ++row)
    for (std::size_t block = 0; block < kBlocksAtOnce; ++block)
      rows[row][block] = power[block * kBlock + row * kBlockStride];
  for (std::size_t run = 1; run < kBlockValues; run *= 2) {
    for (std::size_t step = run; step > 0; step /= 2) {
      for (std::size_t low = step % run; low + step < kBlockValues; ++low) {
        if (((low - step % run) / step) % 2 != 0 || low / (2 * run) != (low + step) / (2 * run)) continue;
        double* one = rows[low].data();
        double* other = rows[low + step].data();
        for (std::size_t block = 0; block < kBlocksAtOnce; ++block) {
          const double a = one[block], b = other[block];
          one[block] = std::min(a, b);
          other[block] = std::max(a, b);
        }
      }
    }
  }
  std::copy_n(rows[kBlockValues / 2].data(), kBlocksAtOnce, medians);
}

/// Medians of the blocks begin .. end - 1, at their places; the others' places stay empty.
std::vector<double> block_noise(std::span<const double> power, std::size_t begin, std::size_t end) {
  std::vector<double> medians(end);
  std::size_t block = begin;
  for (; block + kBlocksAtOnce <= end && (block + kBlocksAtOnce) * kBlock <= power.size(); block += kBlocksAtOnce)
    block_medians(power.data() + block * kBlock, medians.data() + block);
  std::vector<double> scratch;
  for (; block < end; ++block) {
    scratch.clear();
    for (std::size_t k = block * kBlock; k < std::min(power.size(), (block + 1) * kBlock); k += kBlockStride)
      scratch.push_back(power[k]);
    medians[block] = signal::upper_median_in_place(scratch);
  }
  return medians;
}

/// Local maxima that stand out of the lowest of the three blocks around them, highest first.
std::vector<std::size_t> maxima(std::span<const double> power, double bin_hz, const PeakRules& rules, double least) {
  const auto first = static_cast<std::size_t>(std::max(1.0, std::ceil(rules.low_hz / bin_hz)));
  const auto end = std::min(power.size() - 1, static_cast<std::size_t>(std::max(0.0, rules.high_hz / bin_hz)) + 1);
  std::vector<std::size_t> found;
  if (end <= first) return found;
  const std::size_t blocks = std::min((end - 1) / kBlock + 2, (power.size() + kBlock - 1) / kBlock);
  const std::vector<double> coarse = block_noise(power, std::max<std::size_t>(1, first / kBlock) - 1, blocks);
  for (std::size_t k = first; k < end; ++k) {
    if (!(power[k] > power[k - 1]) || power[k] < power[k + 1]) continue;
    const std::size_t block = k / kBlock;
    double rough = coarse[block];
    if (block > 0) rough = std::min(rough, coarse[block - 1]);
    if (block + 1 < coarse.size()) rough = std::min(rough, coarse[block + 1]);
    if (power[k] >= least * rough) found.push_back(k);
  }
  std::sort(found.begin(), found.end(), [&](std::size_t one, std::size_t other) { return power[one] > power[other]; });
  return found;
}

/// The line's top by a parabola through the logarithms of three bins.
SpectrumPeak top_of(std::span<const double> power, double bin_hz, std::size_t k, double noise) {
  const double a = std::log(std::max(power[k - 1], 1e-300)), b = std::log(power[k]),
               c = std::log(std::max(power[k + 1], 1e-300));
  const double bend = 2.0 * b - a - c;
  const double shift = bend > 0 ? std::clamp(0.5 * (c - a) / bend, -0.5, 0.5) : 0.0;
  SpectrumPeak peak;
  peak.frequency_hz = (static_cast<double>(k) + shift) * bin_hz;
  peak.power = std::exp(b + 0.25 * (c - a) * shift);
  peak.noise = noise;
  peak.excess_db = 10.0 * std::log10(peak.power / noise);
  return peak;
}

}  // namespace

double least_excess_db(std::size_t shots) {
  // Upper 6e-6 of the mean of `shots` exponential values over its median (Wilson and Hilferty's cube), 1 in 100 over
  // the 1600 cells of a search; the geometric mean's upper tail is thinner. The median of a dozen cells is itself uncertain:
  // another 1.2 dB for one shot.
  const auto m = static_cast<double>(std::max<std::size_t>(1, shots));
  const double centre = 1.0 - 1.0 / (9.0 * m);
  const double ratio = std::pow(1.0 + 4.38 / (3.0 * std::sqrt(m)) / centre, 3.0);
  return std::max(6.0, 10.0 * std::log10(ratio) + 1.2 / std::sqrt(m));
}

double noise_around(std::span<const double> power, double bin_hz, const PeakRules& rules, double frequency_hz,
                    std::span<const double> known_hz) {
  return Neighbourhood(power, bin_hz, rules, known_hz).noise(frequency_hz);
}

std::vector<SpectrumPeak> find_peaks(std::span<const double> power, double bin_hz, const PeakRules& rules,
                                     std::span<const double> known_hz) {
  std::vector<SpectrumPeak> peaks;
  if (power.size() < 3 || !(bin_hz > 0)) return peaks;
  const double least = std::pow(10.0, 0.1 * rules.least_excess_db);
  Neighbourhood neighbourhood(power, bin_hz, rules, known_hz);
  // Strongest first: a stronger line is no noise for a weaker one.
  for (const std::size_t k : maxima(power, bin_hz, rules, kBlockForgiveness * least)) {
    const double noise = neighbourhood.noise(static_cast<double>(k) * bin_hz, power[k] / least);
    if (!(noise > 0) || power[k] < least * noise) continue;
    const SpectrumPeak peak = top_of(power, bin_hz, k, noise);
    neighbourhood.add_line(peak.frequency_hz);
    peaks.push_back(peak);
  }
  std::sort(peaks.begin(), peaks.end(),
            [](const SpectrumPeak& one, const SpectrumPeak& other) { return one.frequency_hz < other.frequency_hz; });
  return peaks;
}

}  // namespace ringfall::shot
