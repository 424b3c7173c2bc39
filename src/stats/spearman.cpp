// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/rank.h"
#include "stats/rank_interval.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr std::size_t kMostExactRanks = 12;
constexpr int kDrawn = 100'000;

// Ranks as whole numbers from 0: doubled when ties make halves.
std::vector<int> whole_ranks(std::span<const double> rank) {
  const bool halves =
      std::any_of(rank.begin(), rank.end(), [](double r) { return r != std::floor(r); });
  std::vector<int> result;
  for (const double r : rank) result.push_back(static_cast<int>((r - 1.0) * (halves ? 2.0 : 1.0)));
  return result;
}

long product_sum(std::span<const int> a, std::span<const int> b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0L);
}

// n times the distance of a product sum from its mean over all orders.
class Distance {
 public:
  Distance(std::span<const int> a, std::span<const int> b)
      : n_(static_cast<long>(a.size())),
        sums_(std::accumulate(a.begin(), a.end(), 0L) * std::accumulate(b.begin(), b.end(), 0L)) {}
  long operator()(long sum) const { return std::labs(n_ * sum - sums_); }

 private:
  long n_;
  long sums_;
};

// Over all n! orders: ways[set][sum], the orders in which the first a's take the b's of a set and give a sum.
double exact_p(std::span<const int> a, std::span<const int> b) {
  const std::size_t n = a.size();
  std::vector<int> sorted_a(a.begin(), a.end());
  std::vector<int> sorted_b(b.begin(), b.end());
  std::sort(sorted_a.begin(), sorted_a.end());
  std::sort(sorted_b.begin(), sorted_b.end());
  const auto width = static_cast<std::size_t>(product_sum(sorted_a, sorted_b)) + 1;
  const std::size_t sets = std::size_t{1} << n;
  std::vector<std::uint32_t> ways(sets * width, 0);  // at most 12! = 479 001 600
  ways[0] = 1;
  for (std::size_t set = 0; set + 1 < sets; ++set) {
    const int next_a = a[static_cast<std::size_t>(std::popcount(set))];
    for (std::size_t j = 0; j < n; ++j) {
      const std::size_t bit = std::size_t{1} << j;
      if ((set & bit) != 0) continue;
      const auto step = static_cast<std::size_t>(next_a * b[j]);
      const std::uint32_t* from = &ways[set * width];
      std::uint32_t* to = &ways[(set | bit) * width];
      for (std::size_t sum = 0; sum + step < width; ++sum) to[sum + step] += from[sum];
    }
  }
  const Distance distance(a, b);
  const long observed = distance(product_sum(a, b));
  double extreme = 0.0;
  double all = 0.0;
  for (std::size_t sum = 0; sum < width; ++sum) {
    const double count = ways[(sets - 1) * width + sum];
    all += count;
    if (distance(static_cast<long>(sum)) >= observed) extreme += count;
  }
  return extreme / all;
}

double sampled_p(std::span<const int> a, std::span<const int> b, std::uint64_t seed) {
  const Distance distance(a, b);
  const long observed = distance(product_sum(a, b));
  std::vector<int> mixed(b.begin(), b.end());
  Random random(seed);
  int extreme = 0;
  for (int i = 0; i < kDrawn; ++i) {
    random.shuffle(std::span(mixed));
    extreme += distance(product_sum(a, mixed)) >= observed ? 1 : 0;
  }
  return (extreme + 1.0) / (kDrawn + 1.0);
}

}  // namespace

std::optional<double> spearman_rho(std::span<const double> x, std::span<const double> y) {
  check(x.size() == y.size(), "as many y as x");
  const std::vector<double> rank_x = ranks(x);
  const std::vector<double> rank_y = ranks(y);
  if (x.size() < 2) return std::nullopt;
  const double sxx = squares_about_mean(rank_x);
  const double syy = squares_about_mean(rank_y);
  if (sxx == 0.0 || syy == 0.0) return std::nullopt;
  return std::clamp(products_about_means(rank_x, rank_y) / std::sqrt(sxx * syy), -1.0, 1.0);
}

std::optional<RankAgreement> spearman(std::span<const double> x, std::span<const double> y,
                                      double confidence, std::uint64_t seed) {
  check_share(confidence);
  const std::optional<double> coefficient = spearman_rho(x, y);
  if (!coefficient || x.size() < 3) return std::nullopt;

  RankAgreement result{.coefficient = *coefficient, .n = x.size()};
  const auto n = static_cast<double>(x.size());
  const double rho = *coefficient;
  const double unexplained = 1.0 - rho * rho;
  result.approximate_p =
      unexplained <= 0.0 ? 0.0
                         : student_t_two_sided_p(rho * std::sqrt((n - 2.0) / unexplained), n - 2.0);
  const std::vector<int> a = whole_ranks(ranks(x));
  const std::vector<int> b = whole_ranks(ranks(y));
  result.method = x.size() <= kMostExactRanks ? PMethod::exact : PMethod::sampled;
  result.p = x.size() <= kMostExactRanks ? exact_p(a, b) : sampled_p(a, b, seed);
  if (x.size() >= 4) {
    result.interval = fisher_interval(rho, (1.0 + 0.5 * rho * rho) / (n - 3.0), confidence);
  }
  return result;
}

}  // namespace ringfall::stats
