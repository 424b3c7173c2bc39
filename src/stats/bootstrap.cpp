// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/bootstrap.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr double kMostWithoutValue = 0.1;

std::vector<double> resampled(std::span<const std::size_t> group_sizes,
                              const IndexStatistic& statistic, const BootstrapSettings& settings) {
  const std::size_t n = std::accumulate(group_sizes.begin(), group_sizes.end(), std::size_t{0});
  std::vector<std::size_t> indices(n);
  std::vector<double> results;
  results.reserve(settings.resamples);
  Random random(settings.seed);
  for (std::size_t r = 0; r < settings.resamples; ++r) {
    std::size_t start = 0;
    for (const std::size_t size : group_sizes) {
      for (std::size_t i = 0; i < size; ++i) indices[start + i] = start + random.below(size);
      start += size;
    }
    if (const std::optional<double> value = statistic(indices)) results.push_back(*value);
  }
  std::sort(results.begin(), results.end());
  return results;
}

// Skewness of the influence of single observations, from leaving each out once.
std::optional<double> acceleration(std::span<const std::size_t> group_sizes,
                                   const IndexStatistic& statistic) {
  const std::size_t n = std::accumulate(group_sizes.begin(), group_sizes.end(), std::size_t{0});
  double squares = 0.0;
  double cubes = 0.0;
  std::size_t start = 0;
  for (const std::size_t size : group_sizes) {
    std::vector<double> without;
    for (std::size_t left_out = start; left_out < start + size; ++left_out) {
      std::vector<std::size_t> indices(n);
      std::iota(indices.begin(), indices.end(), std::size_t{0});
      indices.erase(indices.begin() + static_cast<std::ptrdiff_t>(left_out));
      const std::optional<double> value = statistic(indices);
      if (!value) return std::nullopt;
      without.push_back(*value);
    }
    const double middle = plain_mean(without);
    const double factor = static_cast<double>(size - 1) / static_cast<double>(size);
    for (const double value : without) {
      const double u = factor * (middle - value);
      squares += u * u;
      cubes += u * u * u;
    }
    start += size;
  }
  if (squares == 0.0) return 0.0;
  return cubes / (6.0 * std::pow(squares, 1.5));
}

}  // namespace

std::optional<BootstrapInterval> bca_interval(std::span<const std::size_t> group_sizes,
                                              const IndexStatistic& statistic,
                                              const BootstrapSettings& settings) {
  check_share(settings.confidence);
  check(settings.resamples >= 100, "at least 100 resamples");
  check(!group_sizes.empty(), "at least one group");
  if (*std::min_element(group_sizes.begin(), group_sizes.end()) < 2) return std::nullopt;

  std::vector<std::size_t> all(
      std::accumulate(group_sizes.begin(), group_sizes.end(), std::size_t{0}));
  std::iota(all.begin(), all.end(), std::size_t{0});
  const std::optional<double> estimate = statistic(all);
  const std::optional<double> a = acceleration(group_sizes, statistic);
  if (!estimate || !a) return std::nullopt;

  const std::vector<double> values = resampled(group_sizes, statistic, settings);
  const auto asked = static_cast<double>(settings.resamples);
  if (static_cast<double>(values.size()) < (1.0 - kMostWithoutValue) * asked) return std::nullopt;
  const auto [first_same, past_same] = std::equal_range(values.begin(), values.end(), *estimate);
  const auto below = static_cast<double>(first_same - values.begin());
  const auto same = static_cast<double>(past_same - first_same);
  const double share = (below + 0.5 * same) / static_cast<double>(values.size());
  if (values.front() == values.back() || share <= 0.0 || share >= 1.0) return std::nullopt;

  const double z0 = normal_quantile(share);
  const double tail = 0.5 - 0.5 * settings.confidence;
  const auto end = [&](double p) {
    const double z = z0 + normal_quantile(p);
    // Where the formula has its pole the end runs off to the last resampled value.
    const double room = 1.0 - *a * z;
    const double level = room > 0.0 ? normal_cdf(z0 + z / room) : (p < 0.5 ? 0.0 : 1.0);
    return *quantile(values, level);
  };
  return BootstrapInterval{.estimate = *estimate,
                           .interval = {end(tail), end(1.0 - tail)},
                           .percentile = {*quantile(values, tail), *quantile(values, 1.0 - tail)},
                           .bias_correction = z0,
                           .acceleration = *a};
}

std::optional<BootstrapInterval> bca_interval(std::span<const double> values,
                                              const Statistic& statistic,
                                              const BootstrapSettings& settings) {
  check_finite(values);
  const std::size_t size = values.size();
  std::vector<double> picked;
  const IndexStatistic of_indices = [&](std::span<const std::size_t> indices) {
    picked.clear();
    for (const std::size_t i : indices) picked.push_back(values[i]);
    return statistic(picked);
  };
  return bca_interval({&size, 1}, of_indices, settings);
}

}  // namespace ringfall::stats
