// SPDX-License-Identifier: GPL-3.0-or-later
// Line and analysis of variance.
#include <gtest/gtest.h>

#include <map>
#include <vector>

#include "stats/anova.h"
#include "stats/nist.h"
#include "stats/regression.h"

namespace ringfall::stats {
namespace {

TEST(Regression, NistNorris) {
  // NIST StRD Norris.dat, certified.
  const Line line = fit_line(nist_column("Norris", 1), nist_column("Norris", 0)).value();
  EXPECT_NEAR(line.intercept, -0.262323073774029, 1e-12);
  EXPECT_NEAR(line.slope, 1.00211681802045, 1e-14);
  EXPECT_NEAR(line.intercept_error, 0.232818234301152, 1e-12);
  EXPECT_NEAR(line.slope_error, 0.429796848199937e-3, 1e-15);
  EXPECT_NEAR(line.residual_deviation, 0.884796396144373, 1e-12);
  EXPECT_NEAR(line.r_squared, 0.999993745883712, 1e-14);
  EXPECT_EQ(line.df, 34.0);
}

TEST(Regression, NoAnswerAndPerfectLine) {
  const std::vector<double> x{1.0, 2.0, 3.0};
  const std::vector<double> same{2.0, 2.0, 2.0};
  EXPECT_FALSE(fit_line(same, x));
  EXPECT_FALSE(fit_line(std::vector<double>{1.0, 2.0}, std::vector<double>{1.0, 2.0}));
  const Line flat = fit_line(x, same).value();
  EXPECT_EQ(flat.slope, 0.0);
  EXPECT_EQ(flat.slope_p, 1.0);
  EXPECT_EQ(fit_line(x, x).value().slope_p, 0.0);
}

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
