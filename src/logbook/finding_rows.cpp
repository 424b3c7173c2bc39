// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/finding_rows.h"

#include <array>
#include <sstream>
#include <string>

namespace ringfall::logbook {
namespace {

constexpr std::array kSeverities = {Severity::note, Severity::caution, Severity::void_};
constexpr std::array kOrigins = {Origin::clip, Origin::recording, Origin::person};
constexpr std::array kQuantities = {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::tones, Quantity::hum,
                                    Quantity::ping,   Quantity::buzz,     Quantity::onset,     Quantity::impact, Quantity::floor};

std::string voids_text(const std::vector<Quantity>& quantities) {
  std::string text;
  for (const Quantity quantity : quantities) text += (text.empty() ? "" : " ") + std::string(quantity_name(quantity));
  return text;
}

std::vector<Quantity> voids_of(const std::string& text) {
  std::vector<Quantity> quantities;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    for (const Quantity quantity : kQuantities) {
      if (quantity_name(quantity) == word) quantities.push_back(quantity);
    }
  }
  return quantities;
}

Severity severity_of(const std::string& name) {
  for (const Severity severity : kSeverities) {
    if (severity_name(severity) == name) return severity;
  }
  return Severity::note;
}

Origin origin_of(const std::string& name) {
  for (const Origin origin : kOrigins) {
    if (origin_name(origin) == name) return origin;
  }
  return Origin::clip;
}

}  // namespace

void write_findings(const Database& database, std::optional<std::int64_t> block_id, std::optional<std::int64_t> shot_id,
                    const std::vector<Finding>& findings) {
  Statement row = database.prepare("INSERT INTO finding (block, shot, code, severity, voids, sentence, origin) "
                                     "VALUES (?, ?, ?, ?, ?, ?, ?)");
  for (const Finding& finding : findings) {
    // What is said of a block no single clip showed.
    const Origin origin = block_id && finding.origin == Origin::clip ? Origin::recording : finding.origin;
    row.with(block_id, shot_id, finding.code, severity_name(finding.severity), voids_text(finding.voids), finding.sentence,
             origin_name(origin)).run();
  }
}

std::vector<Finding> read_findings(Statement& rows) {
  std::vector<Finding> findings;
  while (rows.step()) {
    findings.push_back({rows.text(0), severity_of(rows.text(1)), voids_of(rows.text(2)), rows.text(3), origin_of(rows.text(4))});
  }
  return findings;
}

}  // namespace ringfall::logbook
