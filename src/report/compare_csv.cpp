// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/csv.h"
#include "report/compare_json.h"

namespace ringfall::report {
namespace {

std::string comparison_cell(std::optional<double> value) { return value ? fmt::format("{:.6g}", *value) : std::string(); }

}  // namespace

std::string compare_csv(const compare::Comparison& comparison) {
  std::string out =
      "baseline,setup,unit_of_analysis,number,unit,n_baseline,mean_baseline,sd_baseline,n_setup,mean_setup,sd_setup,difference,"
      "low_95,high_95,p,adjusted_p,permutation_p,verdict,units_to_settle,units_baseline,units_setup,smallest_permutation_p\r\n";
  for (const auto& setup : comparison.against) {
    for (const auto& row : setup.numbers) {
      const auto& d = row.difference;
      const auto of = [&d](double value) { return d ? comparison_cell(value) : std::string(); };
      out += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", csv_cell(comparison.baseline),
                         csv_cell(setup.setup), "block", csv_cell(row.number->id), csv_cell(row.number->unit), row.baseline.n,
                         comparison_cell(row.baseline.mean), comparison_cell(row.baseline.deviation), row.setup.n, comparison_cell(row.setup.mean),
                         comparison_cell(row.setup.deviation), of(d ? d->difference : 0.0), of(d ? d->interval.low : 0.0),
                         of(d ? d->interval.high : 0.0), of(d ? d->p : 0.0), of(row.adjusted_p), comparison_cell(row.permutation_p),
                         d ? csv_cell(compare::verdict_words(row.verdict)) : "",
                         row.units_to_settle ? std::to_string(*row.units_to_settle) : "", row.baseline.blocks, row.setup.blocks,
                         comparison_cell(row.smallest_permutation_p));
    }
  }
  return out;
}

}  // namespace ringfall::report
