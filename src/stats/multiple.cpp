// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/multiple.h"

#include <algorithm>
#include <numeric>

#include "base/check.h"

namespace ringfall::stats {
namespace {

std::vector<std::size_t> rising_order(std::span<const double> p) {
  check(std::all_of(p.begin(), p.end(), [](double v) { return v >= 0.0 && v <= 1.0; }),
        "p values from 0 to 1");
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto i, auto j) { return p[i] < p[j]; });
  return order;
}

}  // namespace

std::vector<double> holm_adjusted(std::span<const double> p) {
  const std::vector<std::size_t> order = rising_order(p);
  std::vector<double> adjusted(p.size());
  double largest = 0.0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    largest = std::max(largest, static_cast<double>(p.size() - k) * p[order[k]]);
    adjusted[order[k]] = std::min(1.0, largest);
  }
  return adjusted;
}

}  // namespace ringfall::stats
