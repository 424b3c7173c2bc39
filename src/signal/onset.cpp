// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/onset.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "base/check.h"

namespace ringfall::signal {
namespace {

constexpr double kOnsetFrame_s = 0.001;

/// Mean powers between any two places, by running sums; silence outside.
class Powers {
 public:
  Powers(std::span<const float> x, double floor) : sums_(x.size() + 1, 0.0), floor_(floor) {
    for (std::size_t n = 0; n < x.size(); ++n) sums_[n + 1] = sums_[n] + static_cast<double>(x[n]) * static_cast<double>(x[n]);
  }
  /// Of `length` values beginning at `begin`, floor added.
  double mean(std::ptrdiff_t begin, std::ptrdiff_t length) const {
    return (at(begin + length) - at(begin)) / static_cast<double>(length) + floor_;
  }

 private:
  double at(std::ptrdiff_t place) const {
    return sums_[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(place, 0, static_cast<std::ptrdiff_t>(sums_.size()) - 1))];
  }
  std::vector<double> sums_;
  double floor_;
};

/// The lowest place of `cost` in from .. to - 1, to a fraction by a parabola through its neighbours.
template <typename Cost>
double lowest(std::ptrdiff_t from, std::ptrdiff_t to, const Cost& cost) {
  std::ptrdiff_t best = from;
  double least = std::numeric_limits<double>::infinity();
  for (std::ptrdiff_t n = from; n < to; ++n) {
    const double here = cost(n);
    if (here < least) {
      least = here;
      best = n;
    }
  }
  if (best == from || best + 1 >= to) return static_cast<double>(best);
  const double left = cost(best - 1);
  const double right = cost(best + 1);
  const double bend = left - 2.0 * least + right;
  const double shift = bend > 0.0 ? std::clamp(0.5 * (left - right) / bend, -0.5, 0.5) : 0.0;
  return static_cast<double>(best) + shift;
}

}  // namespace

Rise steepest_rise(std::span<const float> x, double rate_hz, std::size_t from, std::size_t to, double floor) {
  check(rate_hz >= 4000.0 && floor > 0.0, "steepest_rise: rate or floor out of range");
  const auto frame = static_cast<std::ptrdiff_t>(std::max(std::lround(kOnsetFrame_s * rate_hz), 4L));
  const auto end = static_cast<std::ptrdiff_t>(std::min(to, x.size()));
  const auto begin = std::min(static_cast<std::ptrdiff_t>(from), end);
  const Powers powers(x, floor);

  double loudest = floor;
  for (auto n = begin; n < end; ++n) loudest = std::max(loudest, powers.mean(n, frame));
  const auto flatness = [&](std::ptrdiff_t n) {
    const double after = powers.mean(n, frame);
    return std::log(powers.mean(n - frame, frame) / after) - 2.0 * std::log(std::min(1.0, 10.0 * after / loudest));
  };
  const auto coarse = static_cast<std::ptrdiff_t>(std::lround(lowest(begin, end, flatness)));

  const std::ptrdiff_t first = coarse - 3 * frame;
  const std::ptrdiff_t last = coarse + frame;
  const auto unlikeliness = [&](std::ptrdiff_t n) {
    return static_cast<double>(n - first) * std::log(powers.mean(first, n - first)) +
           static_cast<double>(last - n) * std::log(powers.mean(n, last - n));
  };
  Rise rise;
  rise.position = lowest(std::max(begin, coarse - frame), std::min(end, coarse + frame - 1), unlikeliness);
  const auto at = static_cast<std::ptrdiff_t>(std::lround(rise.position));
  rise.rise_db = 10.0 * std::log10(powers.mean(at, frame) / powers.mean(at - frame, frame));
  return rise;
}

}  // namespace ringfall::signal
