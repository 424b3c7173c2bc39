// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/bootstrap.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "base/failure.h"
#include "stats/published.h"
#include "stats/rank.h"
#include "stats/summary.h"

namespace ringfall::stats {
namespace {

std::optional<double> plug_in_variance(std::span<const double> values) {
  const std::optional<double> deviation = standard_deviation(values);
  if (!deviation) return std::nullopt;
  const auto n = static_cast<double>(values.size());
  return *deviation * *deviation * (n - 1.0) / n;
}

TEST(Bootstrap, SpatialTestData) {
  // Efron & Tibshirani 1993, section 14.3 (test A of the spatial data, plug-in variance): estimate 171.5, a 0.061,
  // z0 0.146 from 2000 resamples; with 2 000 000 resamples outside the project z0 0.1775, 90 % BCa 115.7 .. 261.3.
  // Printed: 115.8 .. 259.6.
  const std::vector<double> a{48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6,
                              0,  33, 28, 34, 4,  32, 24, 47, 41, 24, 26, 30, 41};
  const auto result =
      bca_interval(a, plug_in_variance, {.confidence = 0.90, .resamples = 100'000}).value();
  EXPECT_NEAR(result.estimate, 171.534, 5e-4);
  EXPECT_NEAR(result.acceleration, 0.0612, 5e-5);
  EXPECT_NEAR(result.bias_correction, 0.1775, 0.012);
  EXPECT_NEAR(result.interval.low, 115.7, 1.2);
  EXPECT_NEAR(result.interval.high, 261.3, 2.6);
}

TEST(Bootstrap, MeanOfSixteen) {
  // Reference library's test of its bootstrap against R's boot, 1 000 000 resamples: percentile 28.86 .. 84.21, BCa
  // 32.31 .. 91.43; a 0.06153. Tolerance 1 %.
  const std::vector<double> values{10, 12, 12.5, 12.5, 13.9, 15,  21,  22,
                                   23, 34, 50,   81,   89,   121, 134, 213};
  const auto result =
      bca_interval(values, [](auto v) { return mean(v); }, {.resamples = 100'000}).value();
  EXPECT_NEAR(result.acceleration, 0.06153, 5e-6);
  EXPECT_NEAR(result.percentile.low, 28.86, 0.3);
  EXPECT_NEAR(result.percentile.high, 84.21, 0.8);
  EXPECT_NEAR(result.interval.low, 32.31, 0.3);
  EXPECT_NEAR(result.interval.high, 91.43, 0.9);
}

TEST(Bootstrap, PairsThroughIndices) {
  const std::vector<double> x{1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
  const std::vector<double> y{2, 1, 4, 3, 6, 5, 8, 7, 10, 9};
  const std::size_t n = x.size();
  const auto rho = [&](std::span<const std::size_t> indices) -> std::optional<double> {
    std::vector<double> a;
    std::vector<double> b;
    for (const std::size_t i : indices) {
      a.push_back(x[i]);
      b.push_back(y[i]);
    }
    return kendall_tau(a, b);
  };
  const auto result = bca_interval({&n, 1}, rho, {}).value();
  // Five swapped neighbours among 45 pairs: (40 - 5) / 45.
  EXPECT_NEAR(result.estimate, 35.0 / 45.0, 1e-12);
  EXPECT_TRUE(result.interval.contains(result.estimate));
  EXPECT_LE(result.interval.high, 1.0);
}

TEST(Bootstrap, SameSeedSameInterval) {
  const auto average = [](std::span<const double> v) { return mean(v); };
  const auto once = bca_interval(published::mice_treated, average).value();
  const auto again = bca_interval(published::mice_treated, average).value();
  EXPECT_EQ(once.interval.low, again.interval.low);
  const auto other = bca_interval(published::mice_treated, average, {.seed = 9}).value();
  EXPECT_NE(once.interval.low, other.interval.low);
}

TEST(Bootstrap, NoAnswer) {
  const auto average = [](std::span<const double> v) { return mean(v); };
  EXPECT_FALSE(bca_interval(std::vector<double>{1.0}, average));
  EXPECT_FALSE(bca_interval(std::vector<double>{2.0, 2.0, 2.0}, average));
  const auto nothing = [](std::span<const double>) { return std::optional<double>(); };
  EXPECT_FALSE(bca_interval(published::mice_treated, nothing));
  // No value for a tenth of the resamples or more: those without the largest value, (6/7)^7 = 0.34 of them.
  const auto needs_largest = [](std::span<const double> v) -> std::optional<double> {
    if (v.size() == 7 && *quantile(v, 1.0) < 197.0) return std::nullopt;
    return mean(v);
  };
  EXPECT_FALSE(bca_interval(published::mice_treated, needs_largest));
  EXPECT_THROW(
      bca_interval(std::vector<double>{1.0, std::numeric_limits<double>::quiet_NaN()}, average),
      InternalError);
}

}  // namespace
}  // namespace ringfall::stats
