// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/compare_text.h"

#include <fmt/format.h>

#include <optional>
#include <utility>

#include "base/text.h"
#include "report/sentences.h"
#include "report/tone_change.h"
#include "terminal/answer_text.h"
#include "terminal/compare_words.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

std::string shown(const TextTable& table, std::size_t width, const Ink& ink) {
  std::string out;
  for (const auto& part : table.parts(2, width)) {
    for (std::size_t k = 0; k < part.lines.size(); ++k) out += k < part.heads ? ink.quiet(part.lines[k]) : part.lines[k];
  }
  return out;
}

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
          fmt::format("{}/{}", row.baseline.n, row.setup.n),
          fmt::format("{}/{} blocks", row.baseline.blocks, row.setup.blocks),
          difference,
          interval,
          p,
          row.difference ? compare::verdict_words(row.verdict) : "too few, or all alike"};
}

std::string tone_change_lines(const compare::SetUpComparison& against, std::size_t width, const Ink& ink) {
  TextTable table;
  table.add_column("tone", "", TextTable::Side::left);
  table.add_column("family", "", TextTable::Side::left);
  table.add_column("baseline", "level, ring");
  table.add_column("set-up", "level, ring");
  table.add_column("level", "dB");
  table.add_column("95 % interval", "");
  table.add_column("ring time", "s");
  table.add_column("95 % interval", "");
  table.add_column("what became of it", "", TextTable::Side::left);
  const auto described = [](const std::optional<compare::SetUpTone>& entry) {
    return entry ? fmt::format("{}, {}", plain_number(entry->tone.level_db, 1), duration_text(entry->tone.ring_time_s)) : "-";
  };
  const auto change = [](const std::optional<stats::Difference>& found, int decimals) {
    return found ? std::pair(report::signed_number(found->difference, decimals), report::interval_text(found->interval, decimals))
                 : std::pair(std::string("-"), std::string("-"));
  };
  for (const auto& tone : against.tones) {
    const auto level = change(tone.level_db, 1);
    const auto ring = change(tone.ring_time_s, 3);
    std::string place = frequency_text(tone.frequency_hz());
    if (tone.match == compare::ToneMatch::perhaps_moved) place += " / " + frequency_text(tone.setup->tone.frequency_hz);
    table.add_row({place, report::family_word((tone.baseline ? tone.baseline : tone.setup)->tone.family), described(tone.baseline),
                   described(tone.setup), level.first, level.second, ring.first, ring.second, report::match_words(tone)});
  }
  std::string out = "\n" + ink.strong(fmt::format("Which part of the sound changed, {}", against.setup)) +
                    "\n" + ink.quiet("  " + wrapped("(tones of all its tails together, read in each shot)", width - 2, 2)) + "\n";
  return out + shown(table, width, ink);
}

}  // namespace

std::string compare_text(const compare::Comparison& comparison, const compare::Session& session, bool all, std::size_t width, const Ink& ink) {
  std::string out = answer_page(comparison, session, all, width, ink);
  if (!all) return out;
  out += "\n";
  for (const auto& against : comparison.against) {
    out += ink.strong(wrapped(report::main_sentence(against, comparison.baseline), width - 2, 2)) + "\n";
  }
  for (const auto& against : comparison.against) {
    out += "\n" + ink.strong(fmt::format("{} against {}", against.setup, comparison.baseline)) +
           "\n" + ink.quiet("  " + wrapped("(counts: baseline/set-up; p after Holm: the main number, first, over the set-ups, the others over "
                                           "their family)", width - 2, 2)) + "\n";
    TextTable table;
    table.add_column("number", "", TextTable::Side::left);
    table.add_column("unit", "", TextTable::Side::left);
    table.add_column("baseline", "mean");
    table.add_column("set-up", "mean");
    table.add_column("spread", "SD");
    table.add_column("shots", "n/n");
    table.add_column("over", "");
    table.add_column("difference", "");
    table.add_column("95 % interval", "");
    table.add_column("p", "");
    table.add_column("verdict", "", TextTable::Side::left);
    for (const auto& row : against.numbers) table.add_row(number_row(row));
    out += shown(table, width, ink);
    if (!against.tones.empty()) out += tone_change_lines(against, width, ink);
    std::vector<std::string> sentences = report::care_sentences(comparison, against);
    for (auto& sentence : report::ring_down_sentences(against, comparison.baseline)) sentences.push_back(std::move(sentence));
    sentences.push_back(report::tone_sentence(against.tones, against.setup, comparison.baseline));
    for (const auto& sentence : sentences) {
      if (!sentence.empty()) out += "  " + wrapped(sentence, width - 4, 4) + "\n";
    }
  }
  out += compare_words_text(session, comparison.main_number, width, ink);
  return out;
}

}  // namespace ringfall::terminal
