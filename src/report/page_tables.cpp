// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/text.h"
#include "report/html.h"
#include "report/limits.h"
#include "report/page_parts.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

const char* kNothing = "-";

std::string or_dash(const std::string& text) { return text.empty() ? kNothing : text; }

std::vector<std::string> number_row(const compare::NumberDifference& row) {
  const int decimals = row.number->decimals;
  const auto& difference = row.difference;
  return {std::string(row.number->label),
          std::string(row.number->unit),
          plain_number(row.baseline.mean, decimals),
          plain_number(row.setup.mean, decimals),
          plain_number(row.setup.deviation, decimals),
          fmt::format("{} / {}", row.setup.n, row.baseline.n),
          difference ? signed_number(difference->difference, decimals) : kNothing,
          difference ? interval_text(difference->interval, decimals) : kNothing,
          difference ? p_text(row.adjusted_p) : kNothing,
          difference ? compare::verdict_words(row.verdict) : "too few, or all alike"};
}

}  // namespace

std::string setups_part(const SessionReport& report) {
  HtmlTable table(fmt::format("The baseline is '{}'. Kept: shots with a value of {}.", report.source.comparison.baseline,
                              report.main_number->label));
  table.add_column("Set-up", false);
  table.add_column("Blocks (recordings)", false);
  table.add_column("Shots", true);
  table.add_column("Kept", true);
  table.add_column("Notes", false);
  table.add_column("Left out, and why", false);
  for (const auto& setup : report.setups) {
    std::string left_out;
    for (const auto& sentence : setup.left_out) left_out += (left_out.empty() ? "" : " ") + sentence;
    table.add_row({setup.name, listed(setup.blocks), std::to_string(setup.shots), std::to_string(setup.kept),
                   or_dash(listed(setup.notes)), or_dash(left_out)});
  }
  return html_section("setups", "Set-ups", table.html());
}

std::string numbers_part(const SessionReport& report) {
  std::string body = html_paragraph(
      "The main number, first, was named beforehand; its p stands by itself. The others are there to understand it. 'Not "
      "settled' does not mean 'no difference'.");
  for (const auto& against : report.source.comparison.against) {
    HtmlTable table(fmt::format("'{}' against '{}': means over shots; difference and interval over {} ({} + {}). Levels {}.",
                                against.setup, report.source.comparison.baseline, unit_word(against.unit, 2),
                                against.setup_units, against.baseline_units, report.level_reference));
    table.add_column("Number", false);
    table.add_column("Unit", false);
    table.add_column("Baseline", true);
    table.add_column("Set-up", true);
    table.add_column("Spread (SD)", true);
    table.add_column("Shots", true);
    table.add_column("Difference", true);
    table.add_column("95 % interval", true);
    table.add_column("p", true);
    table.add_column("Verdict", false);
    for (const auto& row : against.numbers) table.add_row(number_row(row));
    body += table.html();
  }
  return html_section("numbers", "All numbers", body);
}

std::string doubts_part(const SessionReport& report) {
  if (report.doubts.empty()) return {};
  return html_section("doubts", "Doubts", html_list(report.doubts));
}

std::string limits_part(const SessionReport& report) {
  return html_section("limits", "What this can't tell", html_list(limits(report.calibrated)));
}

std::string chain_part(const SessionReport& report) {
  HtmlTable table("The recordings, in shooting order.");
  table.add_column("Recording", false);
  table.add_column("Format", false);
  table.add_column("Rate", true);
  table.add_column("Channel", true);
  table.add_column("Length", true);
  table.add_column("Levels", false);
  for (const auto& recording : report.source.recordings) {
    table.add_row({recording.file, recording.format, frequency_text(recording.sample_rate_hz),
                   fmt::format("{} of {}", recording.channel, recording.channels), clock_text(recording.duration_s),
                   recording.calibrated ? "calibrated" : "not calibrated"});
  }
  return html_section("chain", "Chain and method", table.html() + html_list(method()));
}

std::string cautions_part() { return html_section("cautions", "Before you shoot your own", html_list(cautions())); }

}  // namespace ringfall::report
