// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/energy_hops.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>

namespace ringfall::shot {
namespace {

constexpr double kDifferenceRate_hz = 24000.0;

/// Four samples side by side, which every x86-64 and ARM64 can do.
using Lanes = float __attribute__((vector_size(16)));

Lanes squared_step(const float* x, const float* before) {
  Lanes now, then;
  std::memcpy(&now, x, sizeof now);
  std::memcpy(&then, before, sizeof then);
  const Lanes step = now - then;
  return step * step;
}

/// Sum of (x[n] - x[n - lag])^2 over `count` values from x on. Sixteen running sums, because one waits for itself at every
/// sample.
float difference_energy(const float* x, std::size_t lag, std::size_t count) {
  const float* before = x - lag;
  Lanes sums[4]{};
  std::size_t n = 0;
  for (; n + 16 <= count; n += 16) {
    for (std::size_t k = 0; k < 4; ++k) sums[k] += squared_step(x + n + 4 * k, before + n + 4 * k);
  }
  for (std::size_t k = 0; n + 4 <= count; n += 4, ++k) sums[k] += squared_step(x + n, before + n);
  for (int lane = 0; n < count; ++n, ++lane) {
    const float step = x[n] - before[n];
    sums[3][lane] += step * step;
  }
  const Lanes sum = (sums[0] + sums[2]) + (sums[1] + sums[3]);
  return (sum[0] + sum[2]) + (sum[1] + sum[3]);
}

}  // namespace

std::size_t difference_lag(double sample_rate_hz) {
  return static_cast<std::size_t>(std::max(std::lround(sample_rate_hz / kDifferenceRate_hz), 1L));
}

std::vector<float> lagged_difference(std::span<const float> samples, std::size_t lag) {
  std::vector<float> difference(samples.size(), 0.0F);
  for (std::size_t n = lag; n < samples.size(); ++n) difference[n] = samples[n] - samples[n - lag];
  return difference;
}

EnergyHops::EnergyHops(double sample_rate_hz, std::size_t hops_kept)
    : lag_(difference_lag(sample_rate_hz)),
      hop_(static_cast<std::size_t>(std::lround(sample_rate_hz / 1000.0))),
      mask_(std::bit_ceil(hops_kept) - 1),
      kept_(mask_ + 1, 0.0F) {}

void EnergyHops::push(std::span<const float> samples) {
  if (samples.empty()) return;
  // Before the recording there was its first sample: starting is no step from silence.
  if (work_.empty()) work_.assign(lag_, samples[0]);
  std::size_t taken = 0;
  // A hop that began in an earlier block, or that looks back into one, is put together; the others are read where they are.
  while (taken < samples.size() && (work_.size() > lag_ || taken < lag_)) {
    const std::size_t count = std::min(lag_ + hop_ - work_.size(), samples.size() - taken);
    const auto from = samples.begin() + static_cast<std::ptrdiff_t>(taken);
    work_.insert(work_.end(), from, from + static_cast<std::ptrdiff_t>(count));
    taken += count;
    if (work_.size() < lag_ + hop_) return;
    add(work_.data() + lag_);
    work_.erase(work_.begin(), work_.end() - static_cast<std::ptrdiff_t>(lag_));
  }
  if (taken == samples.size()) return;
  for (; taken + hop_ <= samples.size(); taken += hop_) add(samples.data() + taken);
  work_.assign(samples.begin() + static_cast<std::ptrdiff_t>(taken - lag_), samples.end());
}

void EnergyHops::add(const float* hop) {
  kept_[place(count_)] = difference_energy(hop, lag_, hop_) / static_cast<float>(hop_);
  ++count_;
}

std::int64_t EnergyHops::oldest() const {
  return std::max<std::int64_t>(0, count_ - static_cast<std::int64_t>(kept_.size()));
}

double EnergyHops::mean(std::int64_t begin, std::int64_t end) const {
  begin = std::clamp(begin, oldest(), count_);
  end = std::clamp(end, begin, count_);
  if (end == begin) return 0.0;
  double sum = 0.0;
  for (std::int64_t k = begin; k < end; ++k) sum += at(k);
  return sum / static_cast<double>(end - begin);
}

double EnergyHops::lowest_mean(std::int64_t begin, std::int64_t end, std::int64_t length) const {
  begin = std::clamp(begin, oldest(), count_);
  end = std::clamp(end, begin, count_);
  if (end - begin <= length) return mean(begin, end);
  double lowest = mean(begin, begin + length);
  for (std::int64_t k = begin + 1; k + length <= end; ++k) lowest = std::min(lowest, mean(k, k + length));
  return lowest;
}

}  // namespace ringfall::shot
