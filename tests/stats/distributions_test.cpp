// SPDX-License-Identifier: GPL-3.0-or-later
// Closed forms; scipy_reference_test.cpp holds the rest against a library.
#include "stats/distributions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/failure.h"
#include "stats/special_functions.h"

namespace ringfall::stats {
namespace {

void expect_relative(double found, double expected, double tolerance, const char* what) {
  EXPECT_NEAR(found, expected, tolerance * std::abs(expected)) << what;
}

TEST(Distributions, StudentOneAndTwoDegreesOfFreedom) {
  for (const double p : {1e-90, 1e-12, 0.003, 0.2, 0.4, 0.499}) {
    // One: Cauchy, t = -cot(pi p). Two: t = (2 p - 1) / sqrt(2 p (1 - p)).
    const double one = -1.0 / std::tan(std::numbers::pi * p);
    const double two = (2.0 * p - 1.0) / std::sqrt(2.0 * p * (1.0 - p));
    expect_relative(student_t_quantile(p, 1.0), one, 1e-12, "1 df");
    expect_relative(student_t_quantile(p, 2.0), two, 1e-12, "2 df");
    expect_relative(student_t_cdf(one, 1.0), p, 1e-12, "1 df");
    expect_relative(student_t_two_sided_p(-two, 2.0), 2.0 * p, 1e-12, "2 df");
  }
}

TEST(Distributions, QuantileUndoesCdf) {
  for (const double df : {1.3, 3.0, 17.776, 400.0}) {
    for (const double p : {1e-14, 0.01, 0.3, 0.7, 0.975}) {
      expect_relative(student_t_cdf(student_t_quantile(p, df), df), p, 2e-12, "t");
    }
  }
  for (const double p : {1e-300, 1e-8, 0.0999999, 0.1000001, 0.9}) {
    expect_relative(normal_cdf(normal_quantile(p)), p, 1e-12, "normal");
  }
}

TEST(Distributions, ChiSquareTwoDegreesIsExponential) {
  for (const double x : {1e-9, 0.5, 2.9, 3.1, 60.0, 1300.0}) {
    expect_relative(chi_square_upper_p(x, 2.0), std::exp(-0.5 * x), 1e-12, "chi-square");
  }
}

TEST(Distributions, GammaAndBetaOfWholeNumbers) {
  // Gamma(n) = (n - 1)!; Gamma(1/2) = sqrt(pi); B(3, 5) = 2! 4! / 7!; B(1, b) = 1 / b.
  EXPECT_NEAR(log_gamma(1.0), 0.0, 1e-14);
  EXPECT_NEAR(log_gamma(11.0), std::log(3628800.0), 1e-13);
  EXPECT_NEAR(log_gamma(0.5), 0.5 * std::log(std::numbers::pi), 1e-14);
  EXPECT_NEAR(log_beta(3.0, 5.0), std::log(48.0 / 5040.0), 1e-14);
  EXPECT_NEAR(log_beta(4000.0, 1.0), -std::log(4000.0), 1e-13);
}

TEST(Distributions, BlindGuesses) {
  // Sums of binomial coefficients over 2^n: 9 of 10 (10 + 1)/1024, 10 of 12 (66 + 12 + 1)/4096, 7 of 8 (8 + 1)/256.
  EXPECT_NEAR(binomial_upper_p(9, 10, 0.5), 11.0 / 1024.0, 1e-15);
  EXPECT_NEAR(binomial_upper_p(10, 12, 0.5), 79.0 / 4096.0, 1e-15);
  EXPECT_NEAR(binomial_upper_p(7, 8, 0.5), 9.0 / 256.0, 1e-15);
  EXPECT_EQ(binomial_upper_p(0, 0, 0.5), 1.0);
}

TEST(Distributions, NoncentralWithoutShiftIsStudent) {
  for (const double t : {-3.0, -0.2, 0.0, 1.7}) {
    EXPECT_NEAR(noncentral_t_cdf(t, 7.5, 0.0), student_t_cdf(t, 7.5), 1e-14);
  }
}

TEST(Distributions, BrokenPromises) {
  EXPECT_THROW(normal_quantile(0.0), InternalError);
  EXPECT_THROW(normal_quantile(1.0), InternalError);
  EXPECT_THROW(student_t_quantile(0.975, 0.5), InternalError);
  EXPECT_THROW(student_t_cdf(std::numeric_limits<double>::quiet_NaN(), 3.0), InternalError);
  EXPECT_THROW(binomial_upper_p(3, 2, 0.5), InternalError);
}

}  // namespace
}  // namespace ringfall::stats
