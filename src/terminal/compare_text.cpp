// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/compare_text.h"

#include <fmt/format.h>

#include "base/text.h"
#include "report/sentences.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kLineWidth = 100;

std::vector<std::string> number_row(const compare::NumberDifference& row) {
  const int decimals = row.number->decimals;
  std::string difference = "-";
  std::string interval = "-";
  std::string p = "-";
  if (row.difference) {
    difference = report::signed_number(row.difference->difference, decimals);
    interval = report::interval_text(row.difference->interval, decimals);
    p = report::p_text(row.adjusted_p);
  }
  return {std::string(row.number->label),
          std::string(row.number->unit),
          plain_number(row.baseline.mean, decimals),
          plain_number(row.setup.mean, decimals),
          plain_number(row.setup.deviation, decimals),
          fmt::format("{}/{}", row.setup.n, row.baseline.n),
          difference,
          interval,
          p,
          row.difference ? compare::verdict_words(row.verdict) : "too few, or all alike"};
}

}  // namespace

std::string compare_text(const compare::Comparison& comparison, const Ink& ink) {
  std::string out;
  for (const auto& against : comparison.against) {
    out += ink.strong(wrapped(report::main_sentence(against, comparison.baseline), kLineWidth, 2)) + "\n";
  }
  for (const auto& against : comparison.against) {
    out += "\n" + ink.strong(fmt::format("{} against {}", against.setup, comparison.baseline)) +
           ink.quiet(fmt::format("  (unit: the {}; p after Holm but for the main number, which is first)",
                                 report::unit_word(against.unit, 1))) + "\n";
    TextTable table;
    table.add_column("number", "", TextTable::Side::left);
    table.add_column("unit", "", TextTable::Side::left);
    table.add_column("baseline", "mean");
    table.add_column("set-up", "mean");
    table.add_column("spread", "SD");
    table.add_column("shots", "n/n");
    table.add_column("difference", "");
    table.add_column("95 % interval", "");
    table.add_column("p", "");
    table.add_column("verdict", "", TextTable::Side::left);
    for (const auto& row : against.numbers) table.add_row(number_row(row));
    const auto lines = table.lines(2);
    for (std::size_t k = 0; k < lines.size(); ++k) out += k < 2 ? ink.quiet(lines[k]) : lines[k];
  }
  if (!comparison.findings.empty()) out += "\n" + ink.strong("Doubts") + "\n";
  for (const auto& finding : comparison.findings) {
    out += "  " + wrapped(finding.sentence, kLineWidth, 4) + "\n";
  }
  return out;
}

}  // namespace ringfall::terminal
