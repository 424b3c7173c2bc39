// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/loud_edge.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/units.h"

namespace ringfall::shot {
namespace {

constexpr double kFrame_s = 0.001;
// 16-bit rounding noise: below it a rise means nothing.
constexpr double kRounding = 1e-9;

}  // namespace

LoudEdge loud_edge(std::span<const float> samples, double sample_rate_hz, std::size_t from, std::size_t to) {
  const auto frame = static_cast<std::size_t>(std::max(std::lround(kFrame_s * sample_rate_hz), 4L));
  to = std::min(to, samples.size());
  from = std::min(from, to);
  // energy[k]: of the first differences up to and without sample k.
  std::vector<double> energy(samples.size() + 1, 0.0);
  for (std::size_t n = 0; n < samples.size(); ++n) {
    const double step = n == 0 ? 0.0 : static_cast<double>(samples[n]) - static_cast<double>(samples[n - 1]);
    energy[n + 1] = energy[n] + step * step;
  }
  const auto sum = [&](std::size_t begin, std::size_t end) {
    return energy[std::min(end, samples.size())] - energy[std::min(begin, samples.size())];
  };
  double loudest = kRounding;
  for (std::size_t n = from; n < to; ++n) loudest = std::max(loudest, sum(n, n + frame));
  const auto steepness = [&](std::size_t n) {
    const double after = sum(n, n + frame) + kRounding;
    const double before = sum(n - std::min(n, frame), n) + kRounding;
    // A tenth of the loudest millisecond is loud enough to be the edge; less is held against it.
    return std::log(after / before) + 2.0 * std::log(std::min(1.0, 10.0 * after / loudest));
  };
  std::size_t best = from;
  double highest = steepness(from);
  for (std::size_t n = from + 1; n < to; ++n) {
    const double here = steepness(n);
    if (here > highest) {
      highest = here;
      best = n;
    }
  }
  LoudEdge edge;
  edge.position = static_cast<double>(best);
  edge.rise_db = power_to_db((sum(best, best + frame) + kRounding) /
                             (sum(best - std::min(best, frame), best) + kRounding));
  if (best > from && best + 1 < to) {
    const double left = steepness(best - 1);
    const double right = steepness(best + 1);
    const double bend = left - 2.0 * highest + right;
    if (bend < 0.0) edge.position += std::clamp(0.5 * (left - right) / bend, -0.5, 0.5);
  }
  return edge;
}

}  // namespace ringfall::shot
