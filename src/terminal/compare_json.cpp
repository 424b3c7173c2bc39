// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/compare_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "base/csv.h"
#include "terminal/json_text.h"

namespace ringfall::terminal {
namespace {

const char* unit_name(stats::Unit unit) { return unit == stats::Unit::block ? "block" : "shot"; }

Json json_of(const compare::Spread& spread) {
  return {{"n", spread.n}, {"mean", json_number(spread.mean)}, {"standard_deviation", json_number(spread.deviation)}};
}

Json json_of(const compare::NumberDifference& row) {
  Json out = {{"number", row.number->id},       {"unit", row.number->unit},
              {"baseline", json_of(row.baseline)}, {"setup", json_of(row.setup)},
              {"difference", nullptr},          {"low_95", nullptr},
              {"high_95", nullptr},             {"p", nullptr},
              {"adjusted_p", nullptr},          {"permutation_p", row.permutation_p},
              {"verdict", nullptr},             {"units_to_settle", nullptr}};
  if (row.difference) {
    out["difference"] = json_number(row.difference->difference);
    out["low_95"] = json_number(row.difference->interval.low);
    out["high_95"] = json_number(row.difference->interval.high);
    out["p"] = json_number(row.difference->p);
    out["adjusted_p"] = json_number(row.adjusted_p);
    out["verdict"] = compare::verdict_words(row.verdict);
  }
  if (row.units_to_settle) out["units_to_settle"] = *row.units_to_settle;
  return out;
}

std::string cell(std::optional<double> value) { return value ? fmt::format("{:.6g}", *value) : std::string(); }

}  // namespace

std::string compare_json(const compare::Comparison& comparison) {
  Json against = Json::array();
  for (const auto& setup : comparison.against) {
    Json numbers = Json::array();
    for (const auto& row : setup.numbers) numbers.push_back(json_of(row));
    against.push_back({{"setup", setup.setup},
                       {"unit", unit_name(setup.unit)},
                       {"baseline_units", setup.baseline_units},
                       {"setup_units", setup.setup_units},
                       {"numbers", numbers}});
  }
  return json_text({{"tool", json_tool()},
                    {"baseline", comparison.baseline},
                    {"main_number", comparison.main_number},
                    {"setups", comparison.setups},
                    {"against", against},
                    {"findings", json_findings(comparison.findings)}});
}

std::string compare_csv(const compare::Comparison& comparison) {
  std::string out =
      "baseline,setup,unit_of_analysis,number,unit,n_baseline,mean_baseline,sd_baseline,n_setup,mean_setup,sd_setup,difference,"
      "low_95,high_95,p,adjusted_p,permutation_p,verdict,units_to_settle\r\n";
  for (const auto& setup : comparison.against) {
    for (const auto& row : setup.numbers) {
      const auto& d = row.difference;
      const auto of = [&d](double value) { return d ? cell(value) : std::string(); };
      out += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", csv_cell(comparison.baseline),
                         csv_cell(setup.setup), unit_name(setup.unit), row.number->id, row.number->unit, row.baseline.n,
                         cell(row.baseline.mean), cell(row.baseline.deviation), row.setup.n, cell(row.setup.mean),
                         cell(row.setup.deviation), of(d ? d->difference : 0.0), of(d ? d->interval.low : 0.0),
                         of(d ? d->interval.high : 0.0), of(d ? d->p : 0.0), of(row.adjusted_p), cell(row.permutation_p),
                         d ? csv_cell(compare::verdict_words(row.verdict)) : "",
                         row.units_to_settle ? std::to_string(*row.units_to_settle) : "");
    }
  }
  return out;
}

}  // namespace ringfall::terminal
