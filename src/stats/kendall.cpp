// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/rank.h"
#include "stats/rank_distributions.h"
#include "stats/rank_interval.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr std::size_t kMostExactPairs = 60;
constexpr std::size_t kMostExactTied = 8;
constexpr int kDrawnOrders = 100'000;

int sign(double value) { return (value > 0.0 ? 1 : 0) - (value < 0.0 ? 1 : 0); }

// Kendall's S: concordant minus discordant pairs.
long concordance(std::span<const double> x, std::span<const double> y) {
  long s = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) s += sign(x[j] - x[i]) * sign(y[j] - y[i]);
  }
  return s;
}

// Sums over the groups of t equal values that the variance of S needs.
struct Ties {
  double pairs = 0.0;     // t (t - 1) / 2
  double triples = 0.0;   // t (t - 1) (t - 2)
  double variance = 0.0;  // t (t - 1) (2 t + 5)
};

Ties ties_of(std::span<const double> values) {
  std::vector<double> sorted(values.begin(), values.end());
  std::sort(sorted.begin(), sorted.end());
  Ties ties;
  for (auto from = sorted.begin(); from != sorted.end();) {
    const auto to = std::upper_bound(from, sorted.end(), *from);
    const auto t = static_cast<double>(to - from);
    ties.pairs += 0.5 * t * (t - 1.0);
    ties.triples += t * (t - 1.0) * (t - 2.0);
    ties.variance += t * (t - 1.0) * (2.0 * t + 5.0);
    from = to;
  }
  return ties;
}

double variance_of_s(double n, const Ties& x, const Ties& y) {
  const double pairs = n * (n - 1.0);
  return (pairs * (2.0 * n + 5.0) - x.variance - y.variance) / 18.0 +
         x.triples * y.triples / (9.0 * pairs * (n - 2.0)) + 2.0 * x.pairs * y.pairs / pairs;
}

double exact_p(std::size_t n, long s) {
  const std::vector<double> chances = discordant_pair_chances(n);
  const auto pairs = static_cast<long>(chances.size()) - 1;
  double p = 0.0;
  for (long d = 0; d <= pairs; ++d) {
    if (std::labs(pairs - 2 * d) >= std::labs(s)) p += chances[static_cast<std::size_t>(d)];
  }
  return std::min(1.0, p);
}

double exact_tied_p(std::span<const double> x, std::span<const double> y, long s) {
  // Distinct orders of the ties' values are all equally likely, so each needs counting once.
  std::vector<double> order(y.begin(), y.end());
  std::sort(order.begin(), order.end());
  double extreme = 0.0;
  double all = 0.0;
  do {
    all += 1.0;
    extreme += std::labs(concordance(x, order)) >= std::labs(s) ? 1.0 : 0.0;
  } while (std::next_permutation(order.begin(), order.end()));
  return extreme / all;
}

double sampled_p(std::span<const double> x, std::span<const double> y, long s, std::uint64_t seed) {
  std::vector<double> order(y.begin(), y.end());
  Random random(seed);
  int extreme = 0;
  for (int i = 0; i < kDrawnOrders; ++i) {
    random.shuffle(std::span(order));
    extreme += std::labs(concordance(x, order)) >= std::labs(s) ? 1 : 0;
  }
  return (extreme + 1.0) / (kDrawnOrders + 1.0);
}

}  // namespace

std::optional<double> kendall_tau(std::span<const double> x, std::span<const double> y) {
  check(x.size() == y.size(), "as many y as x");
  check_finite(x);
  check_finite(y);
  if (x.size() < 2) return std::nullopt;
  const auto n = static_cast<double>(x.size());
  const double pairs = 0.5 * n * (n - 1.0);
  const double pairs_x = pairs - ties_of(x).pairs;
  const double pairs_y = pairs - ties_of(y).pairs;
  if (pairs_x == 0.0 || pairs_y == 0.0) return std::nullopt;
  const auto s = static_cast<double>(concordance(x, y));
  return std::clamp(s / std::sqrt(pairs_x * pairs_y), -1.0, 1.0);
}

std::optional<RankAgreement> kendall(std::span<const double> x, std::span<const double> y,
                                     double confidence, std::uint64_t seed) {
  check_share(confidence);
  const std::optional<double> coefficient = kendall_tau(x, y);
  if (!coefficient || x.size() < 3) return std::nullopt;
  const auto n = static_cast<double>(x.size());
  const Ties ties_x = ties_of(x);
  const Ties ties_y = ties_of(y);
  const long s = concordance(x, y);
  RankAgreement result{.coefficient = *coefficient, .n = x.size()};
  const double z = static_cast<double>(s) / std::sqrt(variance_of_s(n, ties_x, ties_y));
  result.approximate_p = std::min(1.0, 2.0 * normal_cdf(-std::abs(z)));
  const bool tied = ties_x.pairs + ties_y.pairs > 0.0;
  if (x.size() > kMostExactPairs) {
    result.method = PMethod::approximate;
    result.p = result.approximate_p;
  } else if (!tied) {
    result.p = exact_p(x.size(), s);
  } else if (x.size() <= kMostExactTied) {
    result.p = exact_tied_p(x, y, s);
  } else {
    result.method = PMethod::sampled;
    result.p = sampled_p(x, y, s, seed);
  }
  if (x.size() >= 5)
    result.interval = fisher_interval(result.coefficient, 0.437 / (n - 4.0), confidence);
  return result;
}

}  // namespace ringfall::stats
