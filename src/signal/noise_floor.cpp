// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/noise_floor.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "base/check.h"
#include "signal/levels.h"

namespace ringfall::signal {
namespace {

constexpr double kFloorFrame_s = 0.020;
constexpr std::size_t kFramesNeeded = 5;
/// A frame is foreign when it lies this many times further above the median (in dB) than the quiet 16 % lie below.
/// Low-pitched noise spreads less to the loud side than to the quiet one in dB, so 3 cuts hardly anything of it.
constexpr double kSpreads = 3.0;
/// Steady noise of any bandwidth that a frame can resolve strays by a little; less than this is never called foreign.
constexpr double kLeastSpread = 0.05;  // natural log, 0.2 dB

std::vector<double> frame_means(std::span<const double> mean_square, double rate_hz) {
  const auto length = static_cast<std::size_t>(std::max(1.0, std::round(kFloorFrame_s * rate_hz)));
  std::vector<double> means;
  for (std::size_t begin = 0; begin + length <= mean_square.size(); begin += length) {
    double sum = 0.0;
    for (const double value : mean_square.subspan(begin, length)) sum += value;
    means.push_back(sum / static_cast<double>(length));
  }
  return means;
}

}  // namespace

std::optional<double> floor_mean_square(std::span<const double> mean_square, double rate_hz) {
  check(rate_hz > 0.0, "a rate is positive");
  std::vector<double> means = frame_means(mean_square, rate_hz);
  if (means.size() < kFramesNeeded) return std::nullopt;
  std::sort(means.begin(), means.end());
  const auto at = [&](double share) {
    return means[static_cast<std::size_t>(share * static_cast<double>(means.size() - 1))];
  };
  const double median = at(0.5);
  if (!(median > 0.0)) return std::nullopt;
  const double quiet = std::max(at(0.16), median * 1e-6);
  const double spread = std::max(std::log(median / quiet), kLeastSpread);
  const double limit = median * std::exp(kSpreads * spread);
  double sum = 0.0;
  std::size_t count = 0;
  for (const double mean : means) {
    if (mean > limit) break;
    sum += mean;
    ++count;
  }
  return sum / static_cast<double>(count);
}

std::optional<double> floor_level_db(std::span<const double> pressure_pa, double sample_rate_hz) {
  std::vector<double> squares(pressure_pa.size());
  std::transform(pressure_pa.begin(), pressure_pa.end(), squares.begin(), [](double p) { return p * p; });
  const auto mean_square = floor_mean_square(squares, sample_rate_hz);
  return mean_square ? mean_square_level_db(*mean_square) : std::nullopt;
}

}  // namespace ringfall::signal
