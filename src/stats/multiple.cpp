// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/multiple.h"

#include <algorithm>
#include <numeric>

#include "base/check.h"

namespace ringfall::stats {
namespace {

std::vector<std::size_t> rising_order(std::span<const double> p) {
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto i, auto j) { return p[i] < p[j]; });
  return order;
}

}  // namespace

std::vector<double> holm_adjusted(std::span<const double> p) {
  return holm_adjusted(p, std::vector<double>(p.size(), 1.0));
}

std::vector<double> holm_adjusted(std::span<const double> p, std::span<const double> weights) {
  check(p.size() == weights.size(), "a weight for each p");
  check(std::all_of(p.begin(), p.end(), [](double v) { return v >= 0.0 && v <= 1.0; }), "p values from 0 to 1");
  check(std::all_of(weights.begin(), weights.end(), [](double v) { return v > 0.0; }), "weights above 0");
  std::vector<double> weighed(p.size());
  for (std::size_t k = 0; k < p.size(); ++k) weighed[k] = p[k] / weights[k];
  double left = std::accumulate(weights.begin(), weights.end(), 0.0);
  std::vector<double> adjusted(p.size());
  double largest = 0.0;
  for (const std::size_t k : rising_order(weighed)) {
    largest = std::max(largest, left * weighed[k]);
    adjusted[k] = std::min(1.0, largest);
    left -= weights[k];
  }
  return adjusted;
}

}  // namespace ringfall::stats
