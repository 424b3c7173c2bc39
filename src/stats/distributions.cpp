// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/distributions.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "stats/special_functions.h"

namespace ringfall::stats {
namespace {

double normal_density(double z) {
  return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

constexpr int kMostHalleySteps = 20;

// Moves z towards the root of cdf(z) - p = error; false when that no longer changes it.
bool halley_step(double& z, double error) {
  const double u = error / normal_density(z);
  const double step = u / (1.0 + 0.5 * u * z);
  z -= step;
  return std::abs(step) > 1e-15 * std::abs(z);
}

// P(|T| >= t) and P(|T| < t), each without the cancellation of one minus the other.
double outside(double t, double df) {
  const double u = t * t / df;
  return incomplete_beta(0.5 * df, 0.5, 1.0 / (1.0 + u), u > 1e300 ? 1.0 : u / (1.0 + u));
}
double inside(double t, double df) {
  const double u = t * t / df;
  return incomplete_beta(0.5, 0.5 * df, u > 1e300 ? 1.0 : u / (1.0 + u), 1.0 / (1.0 + u));
}

double log_density_of_t(double t, double df) {
  return -log_beta(0.5, 0.5 * df) - 0.5 * std::log(df) - 0.5 * (df + 1.0) * std::log1p(t * t / df);
}

// t > 0 with P(|T| >= t) = both_tails: Newton on a doubly logarithmic scale, where both ends are straight lines.
double t_of_both_tails(double both_tails, double df) {
  const bool by_tail = both_tails < 0.5;
  const double target = std::log(by_tail ? both_tails : 1.0 - both_tails);
  double low = -300.0;
  double high = 350.0;
  double log_t = std::log(-normal_quantile(0.5 * both_tails));
  for (int step = 0; step < 200; ++step) {
    const double t = std::exp(log_t);
    const double share = by_tail ? outside(t, df) : inside(t, df);
    const double error = std::log(share) - target;
    (by_tail == (error > 0.0) ? low : high) = log_t;
    const double slope =
        (by_tail ? -2.0 : 2.0) * std::exp(log_density_of_t(t, df) + log_t - std::log(share));
    double next = log_t - error / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - log_t) < 1e-15 * std::max(1.0, std::abs(next))) return std::exp(next);
    log_t = next;
  }
  return std::exp(log_t);
}

}  // namespace

double normal_cdf(double z) {
  check(!std::isnan(z), "a number");
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

double normal_quantile(double p) {
  check(p > 0.0 && p < 1.0, "a probability between 0 and 1");
  if (p == 0.5) return 0.0;
  if (p > 0.5) return -normal_quantile(1.0 - p);
  if (p > 0.1) {
    // About the middle p - 1/2 carries the digits.
    double z = (p - 0.5) * std::sqrt(2.0 * std::numbers::pi);
    for (int i = 0; i < kMostHalleySteps; ++i) {
      const double error = 0.5 * std::erf(z / std::numbers::sqrt2) - (p - 0.5);
      if (!halley_step(z, error)) break;
    }
    return z;
  }
  // Start from the tail, where ln p ~ -z^2/2 - ln(|z| sqrt(2 pi)).
  double z = -1.0;
  for (int i = 0; i < 6; ++i) {
    z = -std::sqrt(-2.0 * std::log(p * -z * std::sqrt(2.0 * std::numbers::pi)));
  }
  for (int i = 0; i < kMostHalleySteps; ++i) {
    if (!halley_step(z, normal_cdf(z) - p)) break;
  }
  return z;
}

double student_t_cdf(double t, double df) {
  check(!std::isnan(t) && df > 0.0, "t and its degrees of freedom");
  const double tail = 0.5 * outside(t, df);
  return t < 0.0 ? tail : 0.5 + 0.5 * inside(t, df);
}

double student_t_two_sided_p(double t, double df) {
  check(!std::isnan(t) && df > 0.0, "t and its degrees of freedom");
  return outside(t, df);
}

double student_t_quantile(double p, double df) {
  check(p > 0.0 && p < 1.0 && df >= 1.0, "a probability and degrees of freedom from 1");
  if (p == 0.5) return 0.0;
  return p < 0.5 ? -t_of_both_tails(2.0 * p, df) : t_of_both_tails(2.0 * (1.0 - p), df);
}

double f_upper_p(double f, double df_between, double df_within) {
  check(f >= 0.0 && df_between > 0.0 && df_within > 0.0, "F and its degrees of freedom");
  const double u = df_between * f / df_within;
  return incomplete_beta(0.5 * df_within, 0.5 * df_between, 1.0 / (1.0 + u),
                         u > 1e300 ? 1.0 : u / (1.0 + u));
}

double chi_square_upper_p(double x, double df) {
  check(x >= 0.0 && df > 0.0, "chi-square and its degrees of freedom");
  return incomplete_gamma_upper(0.5 * df, 0.5 * x);
}

double noncentral_t_cdf(double t, double df, double noncentrality) {
  check(std::isfinite(t) && df > 0.0 && std::isfinite(noncentrality), "noncentral t in its range");
  if (t < 0.0) return 1.0 - noncentral_t_cdf(-t, df, -noncentrality);
  const double u = t * t / df;
  const double x = u / (1.0 + u);
  const double y = 1.0 / (1.0 + u);
  const double half_square = 0.5 * noncentrality * noncentrality;
  double sum = normal_cdf(-noncentrality);
  if (t == 0.0) return sum;
  if (half_square == 0.0) return sum + 0.5 * inside(t, df);
  const double log_half_square = std::log(half_square);
  const double sign = noncentrality < 0.0 ? -1.0 : 1.0;
  // Terms j of both series; Poisson-like weights, largest near j = half_square.
  const auto term = [&](double j) {
    const double even = std::exp(-half_square + j * log_half_square - log_gamma(j + 1.0));
    const double odd = std::exp(-half_square + (j + 0.5) * log_half_square - log_gamma(j + 1.5));
    return 0.5 * (even * incomplete_beta(j + 0.5, 0.5 * df, x, y) +
                  sign * odd * incomplete_beta(j + 1.0, 0.5 * df, x, y));
  };
  // Poisson weights are below 1e-18 this far from their middle.
  const double middle = std::floor(half_square);
  const double reach = 30.0 + 9.5 * std::sqrt(half_square);
  for (double j = std::max(0.0, middle - reach); j <= middle + reach; ++j) sum += term(j);
  return std::clamp(sum, 0.0, 1.0);
}

double binomial_upper_p(std::size_t right, std::size_t trials, double chance) {
  check(right <= trials && chance >= 0.0 && chance <= 1.0,
        "at most all right, a chance from 0 to 1");
  if (right == 0) return 1.0;
  return incomplete_beta(static_cast<double>(right), static_cast<double>(trials - right) + 1.0,
                         chance, 1.0 - chance);
}

}  // namespace ringfall::stats
