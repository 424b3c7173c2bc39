// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/random.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <vector>

#include "base/failure.h"
#include "stats/distributions.h"
#include "stats/summary.h"

namespace ringfall::stats {
namespace {

TEST(Random, GeneratorIsTheStandardOne) {
  // C++20 [rand.predef]: the 10000th value of a default mt19937_64 (seed 5489) is 9981545732273789042.
  // A range of 2^63 only drops the top bit, so below() shows it.
  Random random(5489);
  std::size_t last = 0;
  for (int i = 0; i < 10'000; ++i) last = random.below(std::size_t{1} << 63);
  EXPECT_EQ(last, 9981545732273789042U % (std::uint64_t{1} << 63));
}

TEST(Random, BelowIsEven) {
  // 60 000 throws of a die: chi-square with 5 degrees stays under its 99.9 % point.
  Random random(2);
  std::array<double, 6> counts{};
  for (int i = 0; i < 60'000; ++i) counts[random.below(6)] += 1.0;
  double chi_square = 0.0;
  for (const double count : counts) chi_square += (count - 1e4) * (count - 1e4) / 1e4;
  EXPECT_GT(chi_square_upper_p(chi_square, 5.0), 0.001);
  EXPECT_EQ(random.below(1), 0U);
  EXPECT_THROW(random.below(0), InternalError);
}

TEST(Random, NormalHasMeanZeroAndSpreadOne) {
  Random random;
  std::vector<double> values(40'000);
  for (double& value : values) value = random.normal();
  // Three standard errors: 3 / sqrt(n) and 3 / sqrt(2 n).
  EXPECT_NEAR(mean(values).value(), 0.0, 0.015);
  EXPECT_NEAR(standard_deviation(values).value(), 1.0, 0.0107);
  EXPECT_NEAR(quantile(values, 0.975).value(), 1.96, 0.04);
}

TEST(Random, ShuffleReachesAllOrders) {
  Random random(4);
  std::array<double, 6> counts{};
  for (int i = 0; i < 60'000; ++i) {
    std::array<int, 3> order{0, 1, 2};
    random.shuffle(std::span<int>(order));
    counts[static_cast<std::size_t>(order[0] * 2 + (order[1] > order[2] ? 1 : 0))] += 1.0;
  }
  for (const double count : counts)
    EXPECT_NEAR(count, 1e4, 4.0 * 91.3);  // sqrt(60000 * 5/36) = 91.3
}

}  // namespace
}  // namespace ringfall::stats
