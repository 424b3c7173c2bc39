// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/text.h"
#include "report/limits.h"
#include "report/document_parts.h"
#include "report/entry_text.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

const char* kNothing = "-";

std::string or_dash(const std::string& text) { return text.empty() ? kNothing : text; }

std::string channel_text(const RecordingFacts& recording) {
  if (!recording.channel) return kNothing;
  return recording.channels ? fmt::format("{} of {}", *recording.channel, *recording.channels) : std::to_string(*recording.channel);
}

std::string shots_text(const compare::NumberDifference& row) { return fmt::format("{} / {}", row.baseline.n, row.setup.n); }
std::string blocks_of_both(const compare::NumberDifference& row) { return fmt::format("{} / {}", row.baseline.blocks, row.setup.blocks); }

// The answer stands first, so that a phone shows it without moving the table.
std::vector<std::string> number_row(const compare::NumberDifference& row) {
  const int decimals = row.number->decimals;
  const auto& difference = row.difference;
  return {std::string(row.number->label),
          difference ? signed_number(difference->difference, decimals) : kNothing,
          std::string(row.number->unit),
          difference ? compare::verdict_words(row.verdict) : "too few, or all alike",
          difference ? interval_text(difference->interval, decimals) : kNothing,
          difference ? p_text(row.adjusted_p) : kNothing,
          plain_number(row.baseline.mean, decimals),
          plain_number(row.setup.mean, decimals),
          plain_number(row.setup.deviation, decimals),
          shots_text(row),
          blocks_of_both(row)};
}

/// What all rows have alike is said once; nullopt: they differ.
std::optional<std::string> alike(const std::vector<compare::NumberDifference>& rows, std::string (*text)(const compare::NumberDifference&)) {
  const bool all = std::ranges::all_of(rows, [&](const auto& row) { return text(row) == text(rows.front()); });
  return all ? std::optional(text(rows.front())) : std::nullopt;
}

}  // namespace

Section setups_part(const SessionReport& report) {
  Table table;
  table.caption = fmt::format("The baseline is '{}'. Kept: shots with a value of {}.", report.source.comparison.baseline,
                                     report.main_number->label);
  table.columns.push_back({"Set-up", false});
  table.columns.push_back({"Blocks (recordings)", false});
  table.columns.push_back({"Shots", true});
  table.columns.push_back({"Kept", true});
  table.columns.push_back({"What it is", false});
  table.columns.push_back({"Left out, and why", false});
  for (const auto& setup : report.setups) {
    std::vector<std::string> notes = setup.notes;
    const auto& kept = report.source.session.logbook.setups;
    if (const auto own = std::ranges::find(kept, setup.name, &logbook::SetUp::name); own != kept.end()) {
      if (auto words = setup_text(*own, Units::metric); !words.empty()) notes.insert(notes.begin(), std::move(words));
    }
    std::string left_out;
    for (const auto& sentence : setup.left_out) left_out += (left_out.empty() ? "" : " ") + sentence;
    table.rows.push_back({setup.name, listed(setup.blocks), std::to_string(setup.shots), std::to_string(setup.kept),
                          or_dash(listed(notes)), or_dash(left_out)});
  }
  return {"setups", "Set-ups", {std::move(table)}};
}

Section numbers_part(const SessionReport& report) {
  Section section{"numbers", "All numbers", {}};
  section.pieces.emplace_back(Words{
      "The main number, first, was named beforehand; its p is adjusted (Holm) for the number of set-ups only, those of the others for all "
      "of them together. They are there to understand it. 'Not settled' does not mean 'no difference'.",
      WordsStyle::plain});
  if (!report.source.tones.empty()) {
    section.pieces.emplace_back(Words{
        "Hum, ping and their parts are read from all tails of a set-up together, which steadies weak tones: for one shot they can differ "
        "from what that shot gives by itself.",
        WordsStyle::small});
  }
  for (const auto& against : report.source.comparison.against) {
    Table table;
    table.caption = fmt::format("'{}' against '{}': means, difference and interval over blocks, the spread (SD) over "
                                "shots; counts are baseline / set-up. Levels {}.",
                                against.setup, report.source.comparison.baseline, report.level_reference);
    table.columns.push_back({"Number", false});
    table.columns.push_back({"Difference", true});
    table.columns.push_back({"Unit", false});
    table.columns.push_back({"Verdict", false});
    table.columns.push_back({"95 % interval", true});
    table.columns.push_back({"p", true});
    table.columns.push_back({"Baseline", true});
    table.columns.push_back({"Set-up", true});
    table.columns.push_back({"SD", true});
    table.columns.push_back({"Shots", true});
    table.columns.push_back({"Blocks", true});
    for (const auto& row : against.numbers) table.rows.push_back(number_row(row));
    const auto shots = alike(against.numbers, shots_text);
    const auto blocks = alike(against.numbers, blocks_of_both);
    if (shots && blocks) {
      table.columns.resize(table.columns.size() - 2);
      for (auto& row : table.rows) row.resize(table.columns.size());
      table.caption += fmt::format(" Shots: {}; blocks: {}.", *shots, *blocks);
    }
    section.pieces.emplace_back(std::move(table));
  }
  return section;
}

Section sure_part(const SessionReport& report) {
  Points points;
  for (const auto& against : report.source.comparison.against) {
    for (auto& sentence : care_sentences(report.source.comparison, against)) {
      points.items.push_back(fmt::format("{}: {}", against.setup, sentence));
    }
  }
  if (points.items.empty()) return {};
  return {"sure", "How sure", {std::move(points)}};
}

Section doubts_part(const SessionReport& report) {
  if (report.doubts.empty()) return {};
  return {"doubts", "Doubts", {Points{report.doubts}}};
}

Section limits_part(const SessionReport& report) {
  return {"limits", "What this can't tell", {Points{limits(report.calibrated, report.air_assumed)}}};
}

Section chain_part(const SessionReport& report) {
  Table table;
  table.faces = Faces::page;
  table.caption = "The recordings, in shooting order.";
  table.columns.push_back({"Recording", false});
  table.columns.push_back({"Format", false});
  table.columns.push_back({"Rate", true});
  table.columns.push_back({"Channel", true});
  table.columns.push_back({"Length", true});
  table.columns.push_back({"Levels", false});
  for (const auto& recording : report.source.recordings) {
    table.rows.push_back({recording.file, recording.format, frequency_text(recording.sample_rate_hz),
                          channel_text(recording), recording.duration_s ? clock_text(*recording.duration_s) : kNothing,
                          recording.calibrated ? "calibrated" : "not calibrated"});
  }
  Section section{"chain", "Bow, chain and method", {}};
  Points facts;
  const auto& known = report.source.session.logbook;
  for (const auto& bow : known.bows) {
    const auto words = bow_text(bow, Units::metric);
    facts.items.push_back(fmt::format("Bow {}: {}.", bow.name, words.empty() ? "nothing more is said of it" : words));
  }
  for (const auto& session : known.sessions) {
    facts.items.push_back(fmt::format("Session {}: {}.", session.session, session_text(session, Units::metric)));
  }
  if (!facts.items.empty()) section.pieces.emplace_back(std::move(facts));
  section.pieces.emplace_back(std::move(table));
  section.pieces.emplace_back(Points{method()});
  return section;
}

Section cautions_part() { return {"cautions", "Before you shoot your own", {Points{cautions()}}}; }

}  // namespace ringfall::report
