// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/energy_hops.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ringfall::shot {
namespace {

/// Sum of squared first differences of `samples`, the first against `previous`. Eight running sums, so that the
/// compiler can use vector registers without being allowed to reorder floating-point sums.
float difference_energy(std::span<const float> samples, float previous) {
  if (samples.empty()) return 0.0F;
  const float first = samples[0] - previous;
  std::array<float, 8> sums{};
  sums[0] = first * first;
  std::size_t n = 1;
  for (; n + 8 <= samples.size(); n += 8) {
    for (std::size_t lane = 0; lane < 8; ++lane) {
      const float step = samples[n + lane] - samples[n + lane - 1];
      sums[lane] += step * step;
    }
  }
  for (; n < samples.size(); ++n) {
    const float step = samples[n] - samples[n - 1];
    sums[n % 8] += step * step;
  }
  return ((sums[0] + sums[1]) + (sums[2] + sums[3])) + ((sums[4] + sums[5]) + (sums[6] + sums[7]));
}

}  // namespace

EnergyHops::EnergyHops(double sample_rate_hz, std::size_t hops_kept)
    : hop_(static_cast<std::size_t>(std::lround(sample_rate_hz / 1000.0))), partial_(hop_, 0.0F), kept_(hops_kept, 0.0F) {}

void EnergyHops::push(std::span<const float> samples) {
  if (!started_ && !samples.empty()) {
    previous_ = samples[0];  // the first sample is no step from silence
    started_ = true;
  }
  while (!samples.empty()) {
    if (filled_ == 0 && samples.size() >= hop_) {
      finish_hop(samples.first(hop_));
      samples = samples.subspan(hop_);
      continue;
    }
    // Whole hops only, whatever the blocks: the same sums in the same order give the same events.
    const std::size_t take = std::min(samples.size(), hop_ - filled_);
    std::copy_n(samples.begin(), take, partial_.begin() + static_cast<std::ptrdiff_t>(filled_));
    samples = samples.subspan(take);
    filled_ += take;
    if (filled_ == hop_) {
      finish_hop(partial_);
      filled_ = 0;
    }
  }
}

void EnergyHops::finish_hop(std::span<const float> hop) {
  kept_[place(count_)] = difference_energy(hop, previous_) / static_cast<float>(hop_);
  previous_ = hop.back();
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

}  // namespace ringfall::shot
