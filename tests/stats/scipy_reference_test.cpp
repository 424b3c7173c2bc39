// SPDX-License-Identifier: GPL-3.0-or-later
// Every row of tests/data/stats_reference.csv, which tests/reference/stats_reference.py wrote with SciPy.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "base/csv.h"
#include "stats/anova.h"
#include "stats/distributions.h"
#include "stats/hodges_lehmann.h"
#include "stats/permutation.h"
#include "stats/rank.h"
#include "stats/rank_distributions.h"
#include "stats/summary.h"
#include "stats/trend.h"
#include "stats/two_groups.h"

namespace ringfall::stats {
namespace {

using List = std::vector<double>;

List list_of(const std::string& text) {
  std::istringstream in(text);
  List list;
  for (std::string number; in >> number;) list.push_back(std::stod(number));
  return list;
}

double mann_whitney_cumulated(const List& x) {
  const auto chances =
      mann_whitney_chances(static_cast<std::size_t>(x[0]), static_cast<std::size_t>(x[1]));
  double sum = 0.0;
  for (std::size_t u = 0; u <= static_cast<std::size_t>(x[2]); ++u) sum += chances[u];
  return sum;
}

double permutation_greater_p(const List& x, const List& y) {
  const auto test = permute_two(x, y).value();
  return static_cast<double>(test.at_least) / static_cast<double>(test.arrangements);
}

struct Computed {
  std::function<double(const List&, const List&)> value;
  double relative = 1e-12;
  double absolute = 0.0;
};

const std::map<std::string, Computed>& computed() {
  static const std::map<std::string, Computed> table{
      {"normal_cdf", {[](auto& x, auto&) { return normal_cdf(x[0]); }}},
      {"normal_quantile", {[](auto& x, auto&) { return normal_quantile(x[0]); }}},
      {"student_t_cdf", {[](auto& x, auto&) { return student_t_cdf(x[0], x[1]); }}},
      {"student_t_quantile", {[](auto& x, auto&) { return student_t_quantile(x[0], x[1]); }}},
      {"f_upper_p", {[](auto& x, auto&) { return f_upper_p(x[0], x[1], x[2]); }}},
      {"chi_square_upper_p", {[](auto& x, auto&) { return chi_square_upper_p(x[0], x[1]); }}},
      {"binomial_upper_p", {[](auto& x, auto&) {
         return binomial_upper_p(static_cast<std::size_t>(x[0]), static_cast<std::size_t>(x[1]),
                                 x[2]);
       }}},
      {"noncentral_t_cdf",
       {[](auto& x, auto&) { return noncentral_t_cdf(x[0], x[1], x[2]); }, 0.0, 1e-12}},
      {"anova_f", {[](auto& x, auto& y) {
         return one_way_anova(std::vector<List>{x, y}).value().f;
       }}},
      {"permutation_difference",
       {[](auto& x, auto& y) { return permute_two(x, y).value().difference; }}},
      {"permutation_greater_p", {permutation_greater_p}},
      {"hodges_lehmann_shift",
       {[](auto& x, auto& y) { return hodges_lehmann_shift(x, y).value().shift; }}},
      {"mann_whitney_cumulated", {[](auto& x, auto&) { return mann_whitney_cumulated(x); }}},
      {"spearman_rho", {[](auto& x, auto& y) { return spearman_rho(x, y).value(); }}},
      {"spearman_t_p", {[](auto& x, auto& y) { return spearman(x, y).value().approximate_p; }}},
      {"spearman_exact_p", {[](auto& x, auto& y) { return spearman(x, y).value().p; }}},
      {"kendall_tau", {[](auto& x, auto& y) { return kendall_tau(x, y).value(); }}},
      {"kendall_normal_p", {[](auto& x, auto& y) { return kendall(x, y).value().approximate_p; }}},
      {"kendall_exact_p", {[](auto& x, auto& y) { return kendall(x, y).value().p; }}},
      {"theil_sen_slope", {[](auto& x, auto& y) { return theil_sen(x, y).value().slope; }}},
      {"theil_sen_intercept",
       {[](auto& x, auto& y) { return theil_sen(x, y).value().intercept; }, 1e-12, 1e-14}},
      {"median", {[](auto& x, auto&) { return median(x).value(); }}},
      {"mad", {[](auto& x, auto&) { return median_absolute_deviation(x).value(); }}},
      {"quantile", {[](auto& x, auto& y) { return quantile(x, y[0]).value(); }}},
  };
  return table;
}

TEST(ScipyReference, EveryRow) {
  const CsvTable table = read_csv(RINGFALL_TEST_DATA "/stats_reference.csv");
  const std::size_t name = table.needed_column("name");
  const std::size_t value = table.needed_column("value");
  ASSERT_GT(table.rows.size(), 480U);  // 489: the t tests of two groups went with their code
  std::map<std::string, int> used;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const auto& cells = table.rows[row];
    const auto entry = computed().find(cells[name]);
    ASSERT_NE(entry, computed().end()) << cells[name];
    ++used[cells[name]];
    const double expected = table.number(row, value).value();
    const double found = entry->second.value(list_of(cells[table.needed_column("x")]),
                                             list_of(cells[table.needed_column("y")]));
    EXPECT_NEAR(found, expected,
                entry->second.absolute + entry->second.relative * std::abs(expected))
        << cells[name] << " of " << cells[table.needed_column("x")] << " and "
        << cells[table.needed_column("y")] << ", line " << table.lines[row] << ", relative error "
        << (found - expected) / expected;
  }
  EXPECT_EQ(used.size(), computed().size());
}

}  // namespace
}  // namespace ringfall::stats
