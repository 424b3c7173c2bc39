// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/sums.h"

#include <algorithm>

#include "base/check.h"

namespace ringfall::stats {

double compensated_sum(std::span<const double> values) {
  CompensatedSum sum;
  for (const double value : values) sum.add(value);
  return sum.value();
}

Centred centred(std::span<const double> values) {
  check(!values.empty(), "at least one value");
  const double rough = compensated_sum(values) / static_cast<double>(values.size());
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  // Rounding must not push the centre off values that are all equal.
  Centred result{.centre = std::clamp(rough, *low, *high), .deviations = {}};
  result.deviations.reserve(values.size());
  for (const double value : values) result.deviations.push_back(value - result.centre);
  return result;
}

double plain_mean(std::span<const double> values) {
  const Centred parts = centred(values);
  return parts.centre + compensated_sum(parts.deviations) / static_cast<double>(values.size());
}

double squares_about_mean(std::span<const double> values) {
  return products_about_means(values, values);
}

double products_about_means(std::span<const double> x, std::span<const double> y) {
  check(x.size() == y.size(), "lists of one length");
  const Centred cx = centred(x);
  const Centred cy = centred(y);
  const double n = static_cast<double>(x.size());
  const double mx = compensated_sum(cx.deviations) / n;
  const double my = compensated_sum(cy.deviations) / n;
  CompensatedSum sum;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sum.add((cx.deviations[i] - mx) * (cy.deviations[i] - my));
  }
  return sum.value();
}

void check_finite(std::span<const double> values) {
  check(std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); }),
        "values are finite");
}

void check_share(double share) { check(share > 0.0 && share < 1.0, "a share between 0 and 1"); }

}  // namespace ringfall::stats
