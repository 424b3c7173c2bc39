// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "report/answer_words.h"
#include "report/document_parts.h"
#include "report/entry_text.h"
#include "report/sentences.h"
#include "report/setup_figures.h"

namespace ringfall::report {
namespace {

constexpr std::size_t kDoubtsOnPageOne = 2;

/// Date, bow, chain: what is known of them, in a line.
std::string where_from(const SessionReport& report) {
  const auto& known = report.source.session.logbook;
  std::vector<std::string> facts;
  const auto add = [&facts](const std::string& text) {
    if (!text.empty() && std::ranges::find(facts, text) == facts.end()) facts.push_back(text);
  };
  for (const auto& session : known.sessions) {
    add(session.started_at.substr(0, std::min<std::size_t>(10, session.started_at.size())));
    add(session.bow);
    add(session.microphone);
    add(session.chain);
  }
  std::size_t shots = 0;
  for (const auto* block : report.source.session.kept()) shots += block->shots.size();
  std::string text;
  for (const auto& fact : facts) text += (text.empty() ? "" : "; ") + fact;
  if (text.empty()) text = "Date, bow and chain were not stated";
  return fmt::format("{}. {} shots in {} {}; levels {}.", text, shots, report.source.session.kept().size(),
                     block_word(report.source.session.kept().size()), report.level_reference);
}

}  // namespace

std::vector<Piece> opening_part(const SessionReport& report) {
  const auto& comparison = report.source.comparison;
  std::vector<Piece> opening;
  opening.emplace_back(Words{headline(comparison), WordsStyle::verdict});
  Points answers;
  for (const auto& answer : comparison.answers) {
    answers.items.push_back(answer.against_control
                                ? fmt::format("{} against '{}', which weighs the same: {}", answer.setup, answer.against, answer_text(answer))
                                : fmt::format("{} against '{}': {}", answer.setup, answer.against, answer_text(answer)));
  }
  opening.emplace_back(std::move(answers));
  opening.emplace_back(answer_pictures(report));
  opening.emplace_back(Words{dots_caption(report, *shot::find_number("exposure_db")), WordsStyle::small});
  opening.emplace_back(Words{sureness_text(comparison), WordsStyle::plain});
  Points doubts;
  auto texts = doubt_texts(comparison);
  const std::size_t more = texts.size() > kDoubtsOnPageOne ? texts.size() - kDoubtsOnPageOne : 0;
  for (std::size_t k = 0; k < std::min(texts.size(), kDoubtsOnPageOne); ++k) doubts.items.push_back("Doubt: " + texts[k]);
  if (more > 0) doubts.items.back() += fmt::format(" ({} more under 'Doubts'.)", more);
  for (const auto& text : next_texts(comparison)) doubts.items.push_back("Next: " + text);
  opening.emplace_back(std::move(doubts));
  opening.emplace_back(Words{where_from(report), WordsStyle::small});
  return opening;
}

}  // namespace ringfall::report
