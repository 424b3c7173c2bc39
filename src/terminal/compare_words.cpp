// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/compare_words.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "report/said_agreement.h"
#include "report/sentences.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

std::string rank_text(const std::optional<stats::RankAgreement>& rank) {
  return rank ? report::signed_number(rank->coefficient, 2) : "-";
}

std::string rank_interval(const std::optional<stats::RankAgreement>& rank) {
  return rank && rank->interval ? report::interval_text(*rank->interval, 2) : "-";
}

std::string ratings_table(const std::vector<report::Agreement>& agreements, std::size_t width, const Ink& ink) {
  TextTable table;
  table.add_column("said", "0 to 10", TextTable::Side::left);
  table.add_column("measured", "", TextTable::Side::left);
  table.add_column("shots", "");
  table.add_column("tau-b", "");
  table.add_column("95 % interval", "");
  table.add_column("p", "");
  table.add_column("Spearman", "");
  table.add_column("set-ups", "");
  table.add_column("tau-b", "of means");
  for (const auto& entry : agreements) {
    table.add_row({entry.rating, entry.number->label, std::to_string(entry.said.size()), rank_text(entry.rank),
                   rank_interval(entry.rank), entry.rank ? report::p_text(entry.rank->p) : "-", rank_text(entry.spearman),
                   std::to_string(entry.setup_count), rank_text(entry.over_setups)});
  }
  std::string out;
  for (const auto& part : table.parts(2, width)) {
    for (std::size_t k = 0; k < part.lines.size(); ++k) out += k < part.heads ? ink.quiet(part.lines[k]) : part.lines[k];
  }
  return out;
}

}  // namespace

std::string compare_words_text(const compare::Session& session, const std::string& main_number, std::size_t width, const Ink& ink) {
  const auto agreements = report::agreements(session, main_number);
  const auto checks = compare::word_checks(session);
  if (agreements.empty() && checks.empty()) return {};
  std::string out = "\n" + ink.strong("Words against numbers") + "\n" + ink.quiet("  (the numbers stand; words say where to look)") + "\n";
  if (!agreements.empty()) {
    out += ratings_table(agreements, width, ink);
    for (const auto& entry : agreements) out += "  " + wrapped(entry.sentence, width - 4, 4) + "\n";
  }
  for (const auto& line : report::word_check_lines(checks)) out += "  " + wrapped(line, width - 4, 4) + "\n";
  return out;
}

}  // namespace ringfall::terminal
