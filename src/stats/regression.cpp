// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/regression.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {

std::optional<Line> fit_line(std::span<const double> x, std::span<const double> y,
                             double confidence) {
  check(x.size() == y.size(), "as many y as x");
  check_finite(x);
  check_finite(y);
  check_share(confidence);
  if (x.size() < 3) return std::nullopt;
  const double n = static_cast<double>(x.size());
  const double sxx = squares_about_mean(x);
  if (sxx == 0.0) return std::nullopt;
  const double syy = squares_about_mean(y);
  const double mean_x = plain_mean(x);
  const double mean_y = plain_mean(y);

  Line line;
  line.slope = products_about_means(x, y) / sxx;
  line.intercept = mean_y - line.slope * mean_x;
  line.df = n - 2.0;
  CompensatedSum residuals;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = (y[i] - mean_y) - line.slope * (x[i] - mean_x);
    residuals.add(residual * residual);
  }
  line.residual_deviation = std::sqrt(residuals.value() / line.df);
  line.r_squared = syy == 0.0 ? 1.0 : 1.0 - residuals.value() / syy;
  line.slope_error = line.residual_deviation / std::sqrt(sxx);
  line.intercept_error = line.residual_deviation * std::sqrt(1.0 / n + mean_x * mean_x / sxx);
  if (line.slope_error > 0.0) {
    line.slope_p = student_t_two_sided_p(line.slope / line.slope_error, line.df);
  } else {
    line.slope_p = line.slope == 0.0 ? 1.0 : 0.0;
  }
  const double reach = student_t_quantile(0.5 + 0.5 * confidence, line.df) * line.slope_error;
  line.slope_interval = {line.slope - reach, line.slope + reach};
  return line;
}

}  // namespace ringfall::stats
