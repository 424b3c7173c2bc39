// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/compare_text.h"

#include <fmt/format.h>

#include "base/text.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kLineWidth = 100;

std::string unit_word(stats::Unit unit, std::size_t count) {
  const std::string word = unit == stats::Unit::block ? "block" : "shot";
  return count == 1 ? word : word + "s";
}

std::string signed_number(double value, int decimals) { return fmt::format("{:+.{}f}", value, decimals); }

std::vector<std::string> number_row(const compare::NumberDifference& row) {
  const int decimals = row.number->decimals;
  std::string difference = "-";
  std::string interval = "-";
  std::string p = "-";
  if (row.difference) {
    difference = signed_number(row.difference->difference, decimals);
    interval = fmt::format("{} to {}", signed_number(row.difference->interval.low, decimals),
                           signed_number(row.difference->interval.high, decimals));
    p = row.adjusted_p < 0.001 ? "<0.001" : fmt::format("{:.3f}", row.adjusted_p);
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
          row.difference ? compare::verdict_words(row.verdict) : "too few values"};
}

}  // namespace

std::string main_sentence(const compare::SetUpComparison& against, const std::string& baseline) {
  const auto& main = against.numbers.front();
  const std::string label(main.number->label);
  if (!main.difference) {
    return fmt::format("{}: {} can't be compared with '{}': {} of its shots and {} of the baseline's have a value.",
                       against.setup, label, baseline, main.setup.n, main.baseline.n);
  }
  const int decimals = main.number->decimals;
  std::string sentence = fmt::format(
      "{}: {} is {} {} against '{}', 95 % interval {} to {} ({} + {} {}): {}.", against.setup, label,
      signed_number(main.difference->difference, decimals), main.number->unit, baseline,
      signed_number(main.difference->interval.low, decimals), signed_number(main.difference->interval.high, decimals),
      against.setup_units, against.baseline_units, unit_word(against.unit, 2), compare::verdict_words(main.verdict));
  if (main.verdict == compare::Verdict::not_settled && main.units_to_settle) {
    sentence += fmt::format(" About {} {} each would settle it.", *main.units_to_settle,
                            unit_word(against.unit, *main.units_to_settle));
  }
  return sentence;
}

std::string compare_text(const compare::Comparison& comparison, const Ink& ink) {
  std::string out;
  for (const auto& against : comparison.against) {
    out += ink.strong(wrapped(main_sentence(against, comparison.baseline), kLineWidth, 2)) + "\n";
  }
  for (const auto& against : comparison.against) {
    out += "\n" + ink.strong(fmt::format("{} against {}", against.setup, comparison.baseline)) +
           ink.quiet(fmt::format("  (unit: the {}; p after Holm but for the main number, which is first)",
                                 unit_word(against.unit, 1))) + "\n";
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
