// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "report/answer_words.h"
#include "report/document_parts.h"
#include "report/sentences.h"
#include "report/setup_figures.h"
#include "shot/numbers.h"
#include "stats/summary.h"

namespace ringfall::report {
namespace {

bool said_anything(const compare::Said& said) {
  return said.loud || said.hum || said.ping || said.feel || !said.words.empty();
}

/// Mean over a block's shots.
std::string mean_text(const compare::SessionBlock& block, const char* id) {
  const shot::Number& number = *shot::find_number(id);
  std::vector<double> values;
  for (const auto& entry : block.shots) {
    if (const auto value = number.of(entry.shot)) values.push_back(*value);
  }
  return plain_number(stats::mean(values), number.decimals);
}

/// Ratings are mostly whole.
std::string rating(std::optional<double> value) { return value ? fmt::format("{:g}", *value) : "-"; }

Table agreement_table(const std::vector<Agreement>& agreements) {
  Table table;
  table.faces = Faces::page;
  table.caption = "Rank agreement (Kendall's tau-b): +1 the same order, 0 no relation, -1 the opposite order.";
  table.columns.push_back({"As said", false});
  table.columns.push_back({"As measured", false});
  table.columns.push_back({"Pairs", true});
  table.columns.push_back({"tau", true});
  table.columns.push_back({"95 % interval", true});
  table.columns.push_back({"p", true});
  for (const auto& agreement : agreements) {
    const auto& rank = agreement.rank;
    table.rows.push_back({agreement.rating, std::string(agreement.number->label), std::to_string(agreement.said.size()),
                   rank ? signed_number(rank->coefficient, 2) : "-",
                   rank && rank->interval ? interval_text(*rank->interval, 2) : "-", rank ? p_text(rank->p) : "-"});
  }
  return table;
}

Table shot_table(const compare::Session& session) {
  Table table;
  table.faces = Faces::page;
  table.caption = "Shot by shot: what was said (0 to 10, and words) beside what was measured; of a whole block beside the mean of its shots.";
  table.columns.push_back({"Recording, shot", false});
  table.columns.push_back({"Set-up", false});
  table.columns.push_back({"Words", false});
  table.columns.push_back({"Feel", true});
  table.columns.push_back({"Hum said", true});
  table.columns.push_back({"Hum", true});
  table.columns.push_back({"Ping said", true});
  table.columns.push_back({"Ping", true});
  table.columns.push_back({"Loud said", true});
  table.columns.push_back({"Loudness [sone]", true});
  for (const auto& block : session.blocks) {
    const char* dropped = block.dropped.empty() ? "" : " (left out)";
    if (said_anything(block.said)) {
      table.rows.push_back({fmt::format("{}, all{}", block.file, dropped), block.setup, block.said.words.empty() ? "-" : block.said.words,
                     rating(block.said.feel), rating(block.said.hum), mean_text(block, "hum"), rating(block.said.ping),
                     mean_text(block, "ping"), rating(block.said.loud), mean_text(block, "loudness_sone")});
    }
    for (const auto& entry : block.shots) {
      const auto& shot = entry.shot;
      const auto& said = entry.said;
      if (!said_anything(said)) continue;
      table.rows.push_back({fmt::format("{}, {}{}", block.file, shot.number, dropped), block.setup, said.words.empty() ? "-" : said.words,
                     rating(said.feel), rating(said.hum), plain_number(shot.hum, 1), rating(said.ping),
                     plain_number(shot.ping, 1), rating(said.loud), plain_number(shot.levels.loudness_sone, 2)});
    }
  }
  return table;
}

}  // namespace

Section words_part(const SessionReport& report) {
  Section section{"words", "Words and numbers", {}};
  const auto& session = report.source.session;
  const bool any = std::ranges::any_of(session.blocks, [](const auto& block) {
    return said_anything(block.said) || std::ranges::any_of(block.shots, [](const auto& entry) { return said_anything(entry.said); });
  });
  if (!any) {
    section.pieces.emplace_back(Words{"Nothing was said of any shot.", WordsStyle::plain});
    return section;
  }
  if (auto ranked = rating_texts(session, report.source.comparison.baseline); !ranked.empty()) section.pieces.emplace_back(Points{std::move(ranked)});
  if (!report.agreements.empty()) {
    Points sentences;
    Drawings figures;
    figures.faces = Faces::page;
    for (const auto& agreement : report.agreements) {
      sentences.items.push_back(agreement.sentence);
      figures.figures.push_back({"said-" + agreement.rating, said_figure(report, agreement), agreement.sentence,
                                 "Every dot a shot, or a block rated as a whole, with both a rating and a value."});
    }
    sentences.faces = Faces::page;
    section.pieces.emplace_back(std::move(sentences));
    section.pieces.emplace_back(agreement_table(report.agreements));
    section.pieces.emplace_back(Words{
        "Shots of one set-up are much alike, so agreement rests on few truly different sounds; ratings given with the set-up "
        "known lean towards what was expected.",
        WordsStyle::small});
    section.pieces.emplace_back(std::move(figures));
  }
  if (auto lines = word_check_lines(compare::word_checks(session)); !lines.empty()) {
    lines.insert(lines.begin(), "Words of the list held against the shot's own number, above or below the middle of all shots. The numbers stand; "
                                "words say where to look.");
    section.pieces.emplace_back(Points{std::move(lines), Faces::page});
  }
  section.pieces.emplace_back(shot_table(session));
  return section;
}

}  // namespace ringfall::report
