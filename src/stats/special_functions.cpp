// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/special_functions.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.h"

namespace ringfall::stats {
namespace {

constexpr double kShiftAbove = 12.0;
constexpr double kEpsilon = std::numeric_limits<double>::epsilon();
constexpr double kTiny = 1e-300;
constexpr int kMostSteps = 100'000;

// ln Gamma(a) - [(a - 1/2) ln a - a + ln sqrt(2 pi)], Stirling's series; under 1e-16 from 12 up.
double stirling_rest(double a) {
  const double r = 1.0 / (a * a);
  return (1.0 / 12.0 -
          r * (1.0 / 360.0 - r * (1.0 / 1260.0 - r * (1.0 / 1680.0 - r * (1.0 / 1188.0))))) /
         a;
}

// The two continued fractions below are b0 + a1/(b1 + a2/(b2 + ...)), evaluated forward; a(k), b(k) for k = 1, 2, ...
template <typename A, typename B>
double continued_fraction(double b0, A a, B b) {
  double f = b0 == 0.0 ? kTiny : b0;
  double c = f;
  double d = 0.0;
  for (int k = 1; k <= kMostSteps; ++k) {
    d = b(k) + a(k) * d;
    c = b(k) + a(k) / c;
    if (d == 0.0) d = kTiny;
    if (c == 0.0) c = kTiny;
    d = 1.0 / d;
    const double factor = c * d;
    f *= factor;
    if (std::abs(factor - 1.0) < kEpsilon) return f;
  }
  check(false, "continued fraction converges");
  return f;
}

// I_x(a, b) for x below its mean, where the fraction converges fast.
double incomplete_beta_fraction(double a, double b, double x, double y) {
  const auto numerator = [&](int k) {
    const double m = k / 2;
    if (k % 2 == 0) return m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
    return -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
  };
  const double fraction = continued_fraction(1.0, numerator, [](int) { return 1.0; });
  const double log_x = x < 0.5 ? std::log(x) : std::log1p(-y);
  const double log_y = y < 0.5 ? std::log(y) : std::log1p(-x);
  return std::exp(a * log_x + b * log_y - log_beta(a, b)) / (a * fraction);
}

}  // namespace

double log_gamma(double a) {
  check(a > 0.0, "log_gamma of a positive number");
  double product = 1.0;
  while (a < kShiftAbove) product *= a++;
  return (a - 0.5) * std::log(a) - a + 0.5 * std::log(2.0 * std::numbers::pi) + stirling_rest(a) -
         std::log(product);
}

double log_beta(double a, double b) {
  check(a > 0.0 && b > 0.0, "log_beta of positive numbers");
  if (a > b) return log_beta(b, a);
  double product = 1.0;  // B(a, b) = B(a + 1, b) (a + b) / a
  for (; a < kShiftAbove; ++a) product *= (a + b) / a;
  double shifted = b;
  for (; shifted < kShiftAbove; ++shifted) product *= (a + shifted) / shifted;
  // Stirling's main terms joined so that the large ones cancel on paper.
  const double sum = a + shifted;
  return 0.5 * std::log(2.0 * std::numbers::pi / shifted) + (a - 0.5) * std::log(a / sum) -
         shifted * std::log1p(a / shifted) + stirling_rest(a) + stirling_rest(shifted) -
         stirling_rest(sum) + std::log(product);
}

double incomplete_beta(double a, double b, double x, double y) {
  check(a > 0.0 && b > 0.0 && x >= 0.0 && y >= 0.0, "incomplete_beta in its range");
  if (x == 0.0) return 0.0;
  if (y == 0.0) return 1.0;
  if (x * (a + b + 2.0) < a + 1.0) return incomplete_beta_fraction(a, b, x, y);
  return 1.0 - incomplete_beta_fraction(b, a, y, x);
}

double incomplete_gamma_upper(double a, double x) {
  check(a > 0.0 && x >= 0.0, "incomplete_gamma_upper in its range");
  if (x == 0.0) return 1.0;
  const double front = std::exp(a * std::log(x) - x - log_gamma(a));
  if (x < a + 1.0) {
    double term = 1.0 / a;
    double sum = term;
    for (double k = a + 1.0; term > sum * kEpsilon; ++k) {
      term *= x / k;
      sum += term;
    }
    return 1.0 - front * sum;
  }
  const double fraction = continued_fraction(
      x + 1.0 - a, [&](int k) { return k * (a - k); },
      [&](int k) { return x + 2.0 * k + 1.0 - a; });
  return front / fraction;
}

}  // namespace ringfall::stats
