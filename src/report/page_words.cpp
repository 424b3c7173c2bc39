// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "report/html.h"
#include "report/page_parts.h"
#include "report/sentences.h"
#include "report/setup_figures.h"

namespace ringfall::report {
namespace {

bool said_anything(const compare::Said& said) {
  return said.loud || said.hum || said.ping || said.feel || !said.words.empty();
}

/// Ratings are mostly whole.
std::string rating(std::optional<double> value) { return value ? fmt::format("{:g}", *value) : "-"; }

std::string agreement_table(const std::vector<Agreement>& agreements) {
  HtmlTable table("Rank agreement (Kendall's tau-b): +1 the same order, 0 no relation, -1 the opposite order.");
  table.add_column("As said", false);
  table.add_column("As measured", false);
  table.add_column("Shots", true);
  table.add_column("tau", true);
  table.add_column("95 % interval", true);
  table.add_column("p", true);
  for (const auto& agreement : agreements) {
    const auto& rank = agreement.rank;
    table.add_row({agreement.rating, std::string(agreement.number->label), std::to_string(agreement.said.size()),
                   rank ? signed_number(rank->coefficient, 2) : "-",
                   rank && rank->interval ? interval_text(*rank->interval, 2) : "-", rank ? p_text(rank->p) : "-"});
  }
  return table.html();
}

std::string shot_table(const compare::Session& session) {
  HtmlTable table("Shot by shot: what was said (0 to 10, and words) beside what was measured.");
  table.add_column("Recording, shot", false);
  table.add_column("Set-up", false);
  table.add_column("Words", false);
  table.add_column("Feel", true);
  table.add_column("Hum said", true);
  table.add_column("Hum", true);
  table.add_column("Ping said", true);
  table.add_column("Ping", true);
  table.add_column("Loud said", true);
  table.add_column("Loudness [sone]", true);
  for (const auto& block : session.blocks) {
    for (const auto& [shot, said] : block.shots) {
      if (!said_anything(said)) continue;
      const char* dropped = block.dropped.empty() ? "" : " (left out)";
      table.add_row({fmt::format("{}, {}{}", block.file, shot.number, dropped), block.setup, said.words.empty() ? "-" : said.words,
                     rating(said.feel), rating(said.hum), plain_number(shot.hum, 1), rating(said.ping),
                     plain_number(shot.ping, 1), rating(said.loud), plain_number(shot.levels.loudness_sone, 2)});
    }
  }
  return table.html();
}

}  // namespace

std::string words_part(const SessionReport& report) {
  const auto& session = report.source.session;
  const bool any = std::ranges::any_of(session.blocks, [](const auto& block) {
    return std::ranges::any_of(block.shots, [](const auto& entry) { return said_anything(entry.said); });
  });
  if (!any) return html_section("words", "Words and numbers", html_paragraph("Nothing was said of any shot."));
  std::vector<std::string> sentences;
  std::string figures;
  for (const auto& agreement : report.agreements) {
    sentences.push_back(agreement.sentence);
    figures += html_figure(said_figure(report, agreement), "said-" + agreement.rating, agreement.sentence,
                           "Every dot a shot with both a rating and a value.");
  }
  std::string body = html_list(sentences);
  if (!report.agreements.empty()) {
    body += agreement_table(report.agreements);
    body += html_paragraph(
        "Shots of one set-up are much alike, so agreement rests on few truly different sounds; ratings given with the set-up "
        "known lean towards what was expected.",
        "small");
    body += "<div class=\"pictures\">\n" + figures + "</div>\n";
  }
  return html_section("words", "Words and numbers", body + shot_table(session));
}

}  // namespace ringfall::report
