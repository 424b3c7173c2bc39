// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/anova.h"

#include <algorithm>

#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {

std::optional<Anova> one_way_anova(std::span<const std::vector<double>> groups) {
  std::vector<double> all;
  std::size_t filled = 0;
  for (const std::vector<double>& group : groups) {
    check_finite(group);
    all.insert(all.end(), group.begin(), group.end());
    filled += group.empty() ? 0 : 1;
  }
  if (filled < 2 || all.size() <= filled) return std::nullopt;

  // Everything is taken from one common centre: means themselves would round away what distinguishes them.
  const Centred parts = centred(all);
  const double grand = plain_mean(parts.deviations);
  CompensatedSum between;
  CompensatedSum within;
  std::size_t at = 0;
  for (const std::vector<double>& group : groups) {
    if (group.empty()) continue;
    const std::span<const double> own = std::span(parts.deviations).subspan(at, group.size());
    at += group.size();
    const double apart = plain_mean(own) - grand;
    between.add(static_cast<double>(group.size()) * apart * apart);
    within.add(squares_about_mean(own));
  }
  if (within.value() == 0.0) return std::nullopt;

  Anova result;
  result.between_df = static_cast<double>(filled - 1);
  result.within_df = static_cast<double>(all.size() - filled);
  result.between_sum_of_squares = between.value();
  result.within_sum_of_squares = within.value();
  result.between_mean_square = between.value() / result.between_df;
  result.within_mean_square = within.value() / result.within_df;
  result.f = result.between_mean_square / result.within_mean_square;
  result.p = f_upper_p(result.f, result.between_df, result.within_df);
  result.r_squared = between.value() / (between.value() + within.value());
  return result;
}

}  // namespace ringfall::stats
