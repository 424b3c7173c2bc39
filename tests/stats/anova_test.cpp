// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <map>
#include <vector>

#include "stats/anova.h"
#include "stats/nist.h"

namespace ringfall::stats {
namespace {

std::vector<std::vector<double>> nist_groups(const char* set) {
  std::map<double, std::vector<double>> groups;
  for (const auto& row : nist_rows(set)) groups[row.at(0)].push_back(row.at(1));
  std::vector<std::vector<double>> result;
  for (const auto& [label, values] : groups) result.push_back(values);
  return result;
}

struct Certified {
  const char* set;
  double between_df;
  double within_df;
  double f;
  double r_squared;
  double tolerance;  // relative
};

// NIST StRD, one-way: certified values in the heads of the files; the tolerance is what the data's rounding to doubles
// leaves (next test).
const Certified kCertified[] = {
    {"SiRstv", 4, 20, 1.18046237440255, 0.190999039051129, 2e-13},
    {"AtmWtAg", 1, 46, 15.9467335677930, 0.257426544538321, 1e-9},
    {"SmLs01", 8, 180, 21.0, 0.482758620689655, 1e-14},
    {"SmLs04", 8, 180, 21.0, 0.482758620689655, 1e-10},
    {"SmLs07", 8, 180, 21.0, 0.482758620689655, 5e-5},
};

TEST(Anova, NistCertified) {
  for (const Certified& c : kCertified) {
    const Anova a = one_way_anova(nist_groups(c.set)).value();
    EXPECT_EQ(a.between_df, c.between_df) << c.set;
    EXPECT_EQ(a.within_df, c.within_df) << c.set;
    EXPECT_NEAR(a.f, c.f, c.tolerance * c.f) << c.set;
    EXPECT_NEAR(a.r_squared, c.r_squared, c.tolerance * c.r_squared) << c.set;
  }
}

TEST(Anova, NothingLostOnTheDoubles) {
  // The same sets after rounding to doubles, in exact rational arithmetic (Python's fractions).
  EXPECT_NEAR(one_way_anova(nist_groups("AtmWtAg")).value().f, 15.9467335666769, 1e-12);
  EXPECT_NEAR(one_way_anova(nist_groups("SmLs04")).value().f, 21.0000000007761, 1e-12);
  EXPECT_NEAR(one_way_anova(nist_groups("SmLs07")).value().f, 21.0008118878188, 1e-12);
  EXPECT_NEAR(one_way_anova(nist_groups("SmLs07")).value().within_sum_of_squares, 1.80009783733459,
              1e-13);
}

TEST(Anova, NoAnswer) {
  using Groups = std::vector<std::vector<double>>;
  EXPECT_FALSE(one_way_anova(Groups{{1.0, 2.0, 3.0}}));
  EXPECT_FALSE(one_way_anova(Groups{{1.0, 2.0}, {}}));
  EXPECT_FALSE(one_way_anova(Groups{{1.0}, {2.0}}));
  EXPECT_FALSE(one_way_anova(Groups{{0.1, 0.1, 0.1}, {0.3, 0.3, 0.3}}));
}

}  // namespace
}  // namespace ringfall::stats
