// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/permutation.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/check.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

// What chance may rearrange by itself: choose `chosen` of the values; the statistic is the sum of the chosen ones over all
// parts. The values are centred, so the statistic is 0 on average.
struct Part {
  std::vector<double> values;
  std::size_t chosen = 0;
};

double choices(std::size_t n, std::size_t k) {
  double product = 1.0;
  for (std::size_t i = 1; i <= std::min(k, n - k); ++i) {
    product *= static_cast<double>(n + 1 - i) / static_cast<double>(i);
  }
  return std::round(product);
}

class Counter {
 public:
  Counter(double observed, double tolerance) : observed_(observed), tolerance_(tolerance) {}
  void add(double statistic) {
    ++test_.arrangements;
    test_.at_least += statistic >= observed_ - tolerance_ ? 1 : 0;
    test_.at_most += statistic <= observed_ + tolerance_ ? 1 : 0;
    test_.as_extreme += std::abs(statistic) >= std::abs(observed_) - tolerance_ ? 1 : 0;
  }
  PermutationTest result() const { return test_; }

 private:
  double observed_;
  double tolerance_;
  PermutationTest test_;
};

// Every choice of the parts from `part` on, `left` values still to choose from this one's tail starting at `from`.
void enumerate(const std::vector<Part>& parts, std::size_t part, std::size_t from, std::size_t left,
               double sum, Counter& counter) {
  if (left == 0) {
    if (part + 1 == parts.size()) {
      counter.add(sum);
    } else {
      enumerate(parts, part + 1, 0, parts[part + 1].chosen, sum, counter);
    }
    return;
  }
  const std::vector<double>& values = parts[part].values;
  for (std::size_t i = from; i + left <= values.size(); ++i) {
    enumerate(parts, part, i + 1, left - 1, sum + values[i], counter);
  }
}

double draw(Part& part, Random& random) {
  double sum = 0.0;
  for (std::size_t i = 0; i < part.chosen; ++i) {
    std::swap(part.values[i], part.values[i + random.below(part.values.size() - i)]);
    sum += part.values[i];
  }
  return sum;
}

// observed: of the same sum; scale: turns the sum into the difference; tolerance: on the sum.
PermutationTest run(std::vector<Part> parts, double observed, double scale, double tolerance,
                    const PermutationSettings& settings) {
  double all = 1.0;
  for (const Part& part : parts) all *= choices(part.values.size(), part.chosen);
  Counter counter(observed, tolerance);
  const bool exact = all <= static_cast<double>(settings.most_enumerated);
  if (exact) {
    enumerate(parts, 0, 0, parts[0].chosen, 0.0, counter);
  } else {
    check(settings.drawn > 0, "at least one arrangement is drawn");
    Random random(settings.seed);
    for (std::uint64_t i = 0; i < settings.drawn; ++i) {
      double sum = 0.0;
      for (Part& part : parts) sum += draw(part, random);
      counter.add(sum);
    }
  }
  PermutationTest test = counter.result();
  const auto extreme = static_cast<double>(test.as_extreme);
  const auto count = static_cast<double>(test.arrangements);
  test.exact = exact;
  test.p = exact ? extreme / count : (extreme + 1.0) / (count + 1.0);
  test.difference = observed * scale;
  return test;
}

double largest_magnitude(std::span<const double> values) {
  double largest = 0.0;
  for (const double value : values) largest = std::max(largest, std::abs(value));
  return largest;
}

constexpr double kSame = 1e-12;

}  // namespace

std::optional<PermutationTest> permute_within_strata(std::span<const Stratum> strata,
                                                     const PermutationSettings& settings) {
  // With the values of a stratum centred on their mean, n1 n2 / (n1 + n2) times its difference is the sum of the
  // second set-up's values; so the weighted mean is the sum over all strata by the sum of the weights.
  std::vector<Part> parts;
  double observed = 0.0;
  double weights = 0.0;
  double largest = 0.0;
  for (const Stratum& stratum : strata) {
    check_finite(stratum.first);
    check_finite(stratum.second);
    if (stratum.first.empty() || stratum.second.empty()) continue;
    std::vector<double> values = stratum.second;
    values.insert(values.end(), stratum.first.begin(), stratum.first.end());
    largest = std::max(largest, largest_magnitude(values));
    const double middle = plain_mean(values);
    for (double& value : values) value -= middle;
    observed += compensated_sum(std::span(values).first(stratum.second.size()));
    const auto n1 = static_cast<double>(stratum.first.size());
    const auto n2 = static_cast<double>(stratum.second.size());
    weights += n1 * n2 / (n1 + n2);
    parts.push_back({std::move(values), stratum.second.size()});
  }
  if (parts.empty()) return std::nullopt;
  return run(std::move(parts), observed, 1.0 / weights, kSame * weights * largest, settings);
}

double smallest_permutation_p(std::span<const Stratum> strata) {
  double arrangements = 1.0;
  bool mirrored = true;  // all labels swapped: as far out on the other side
  for (const Stratum& stratum : strata) {
    if (stratum.first.empty() || stratum.second.empty()) continue;
    arrangements *= choices(stratum.first.size() + stratum.second.size(), stratum.first.size());
    mirrored = mirrored && stratum.first.size() == stratum.second.size();
  }
  return std::min(1.0, (mirrored ? 2.0 : 1.0) / arrangements);
}

}  // namespace ringfall::stats
