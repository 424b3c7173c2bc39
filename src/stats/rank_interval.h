// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <optional>

#include "stats/distributions.h"
#include "stats/interval.h"

namespace ringfall::stats {

/// Interval of a correlation that is normal with this variance after Fisher's z = artanh(r). nullopt: |r| is 1.
inline std::optional<Interval> fisher_interval(double r, double variance, double confidence) {
  if (std::abs(r) >= 1.0) return std::nullopt;
  const double z = std::atanh(r);
  const double reach = normal_quantile(0.5 + 0.5 * confidence) * std::sqrt(variance);
  return Interval{std::tanh(z - reach), std::tanh(z + reach)};
}

}  // namespace ringfall::stats
