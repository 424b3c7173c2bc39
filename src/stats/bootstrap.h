// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <span>

#include "stats/interval.h"
#include "stats/random.h"

namespace ringfall::stats {

struct BootstrapSettings {
  double confidence = kConfidence;
  std::size_t resamples = 10'000;
  std::uint64_t seed = kSeed;
};

struct BootstrapInterval {
  double estimate = 0.0;         ///< of the data as they are
  Interval interval;             ///< BCa: bias-corrected and accelerated
  Interval percentile;           ///< plain quantiles of the resampled values, for comparison
  double bias_correction = 0.0;  ///< z0
  double acceleration = 0.0;     ///< a
};

/// A statistic of the observations with these indices (repeats allowed), nullopt when it can't be computed from them.
using IndexStatistic = std::function<std::optional<double>(std::span<const std::size_t>)>;
/// A statistic of a list.
using Statistic = std::function<std::optional<double>(std::span<const double>)>;

/// BCa interval of a statistic of one or more groups, each resampled within itself. group_sizes {n} is one sample, {n1, n2}
/// two: the first n1 indices are the first group's. Resamples without a value are left out.
/// nullopt: a group with fewer than two observations, no value for the data or for a jackknife sample, all resampled
/// values equal, or more than a tenth of the resamples without a value.
/// Accuracy: sampling of the ends, about 1 % of the width at 10 000 resamples; with under 10 observations the real coverage
/// is below the nominal one (docs/measures/statistics.md#bootstrap).
/// Source: Efron & Tibshirani 1993 section 14.3; several groups: Davison & Hinkley 1997 section 5.3.2.
/// Tested: stats.Bootstrap.*
std::optional<BootstrapInterval> bca_interval(std::span<const std::size_t> group_sizes,
                                              const IndexStatistic& statistic,
                                              const BootstrapSettings& settings = {});

/// The same for a statistic of one list of finite values.
std::optional<BootstrapInterval> bca_interval(std::span<const double> values,
                                              const Statistic& statistic,
                                              const BootstrapSettings& settings = {});

}  // namespace ringfall::stats
