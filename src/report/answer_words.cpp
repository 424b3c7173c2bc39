// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/answer_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "base/text.h"
#include "compare/rating_contrast.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

using compare::Change;
using compare::Statement;

constexpr const char* kGeneral = "exposure_db";  // the main number where nobody named one

struct Nouns {
  const char* less;
  const char* more;
  const char* itself;
};

/// How people say it; nullptr: by its label.
const Nouns* nouns_of(const Statement& said) {
  static constexpr Nouns loud{"quieter", "louder", "loudness"};
  static constexpr Nouns hum{"less hum", "more hum", "hum"};
  static constexpr Nouns ping{"less ping", "more ping", "ping"};
  if (said.number == kGeneral) return &loud;
  const std::string& asked = said.instead_of.empty() ? said.number : said.instead_of;
  if (asked == "hum") return &hum;
  return asked == "ping" ? &ping : nullptr;
}

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

bool is_score(const Statement& said) { return said.unit == "points"; }

std::string value_text(std::optional<double> value, bool at_most, int decimals) {
  return (at_most ? "at most " : "") + plain_number(value, decimals);
}

/// "7.2 -> 5.1, strong -> plain", "-43.4 -> -44.6 dB".
std::string from_to(const Statement& said) {
  std::string text = value_text(said.from, said.from_at_most, said.decimals) + " -> " + value_text(said.to, said.to_at_most, said.decimals);
  if (!is_score(said)) return text + " " + said.unit;
  if (!said.from || !said.to) return text;
  const std::string before = score_word(*said.from);
  const std::string after = score_word(*said.to);
  return text + ", " + (before == after ? before : before + " -> " + after);
}

/// "-1.2 +- 1.0 dB", or from where to where when the middle is not the difference.
std::string plus_minus(const Statement& said) {
  if (!said.difference || !said.interval) return "";
  const double half = (said.interval->high - said.interval->low) / 2.0;
  const double middle = (said.interval->high + said.interval->low) / 2.0;
  const std::string unit = is_score(said) ? "points" : said.unit;
  if (std::abs(middle - *said.difference) > 0.1 * half) return fmt::format("{} {}", interval_text(*said.interval, said.decimals), unit);
  return fmt::format("{} +- {} {}", signed_number(*said.difference, said.decimals), plain_number(half, said.decimals), unit);
}

std::string how_much(const Statement& said) {
  if (said.verdict == compare::Verdict::clear) return "much ";
  return said.verdict == compare::Verdict::small ? "slightly " : "";
}

std::string coarse(const Statement& said) { return said.instead_of.empty() ? "" : ", by the level of its tail"; }

const Statement& of(const compare::Answer& answer, std::size_t which) {
  return which == 0 ? answer.loudness : which == 1 ? answer.hum : answer.ping;
}

std::vector<std::string> those_with(const compare::Comparison& comparison, std::size_t which, Change change) {
  std::vector<std::string> names;
  for (const auto& answer : comparison.answers) {
    if (!answer.against_control && of(answer, which).change == change) names.push_back("'" + answer.setup + "'");
  }
  return names;
}

std::string step_text(const compare::Answer& answer) {
  const std::string both = fmt::format("'{}' and '{}'", answer.against, answer.setup);
  switch (answer.next) {
    case compare::NextStep::nothing: return "";
    case compare::NextStep::once_more:
      return fmt::format("Record both once more in the reverse order: '{}', then '{}'. One block says little: placing, stance and the day are in it.",
                         answer.setup, answer.against);
    case compare::NextStep::more_blocks: return "";  // said of all together
    case compare::NextStep::bring_control: return fmt::format("Shoot a dummy as heavy as '{}' in the same place: it tells damping from mere mass.", answer.setup);
    case compare::NextStep::one_session: return fmt::format("Shoot {} in one session.", both);
    case compare::NextStep::same_chain: return fmt::format("Record {} with one device, gain and format.", both);
    case compare::NextStep::too_many: return fmt::format("{}: what is open is small if it is there; more shooting is hardly worth it.", both);
  }
  return "";
}

}  // namespace

const char* score_word(double points) {
  return points < 1.0 ? "none" : points < 3.0 ? "slight" : points < 6.0 ? "plain" : points < 8.0 ? "strong" : "very ringing";
}

std::string statement_text(const Statement& said) {
  const Nouns* nouns = nouns_of(said);
  const std::string itself = nouns ? nouns->itself : said.label;
  const std::string less = nouns ? nouns->less : said.label + " less";
  const std::string more = nouns ? nouns->more : said.label + " more";
  const std::string by = said.at_least ? fmt::format(", by {} at least", plain_number(std::abs(*said.at_least), said.decimals)) : "";
  switch (said.change) {
    case Change::less: return capital(fmt::format("{}{}{}{} ({})", how_much(said), less, by, coarse(said), from_to(said)));
    case Change::more: return capital(fmt::format("{}{}{}{} ({})", how_much(said), more, by, coarse(said), from_to(said)));
    case Change::same: return capital(fmt::format("{} about the same{} ({})", itself, coarse(said), from_to(said)));
    case Change::open: return capital(fmt::format("{} not settled{} ({})", itself, coarse(said), plus_minus(said)));
    case Change::leaning_less: return fmt::format("Perhaps {}, not sure{} ({})", less, coarse(said), plus_minus(said));
    case Change::leaning_more: return fmt::format("Perhaps {}, not sure{} ({})", more, coarse(said), plus_minus(said));
    case Change::no_number: return capital(fmt::format("{}: no answer, {}", itself, said.why_not));
  }
  return "";
}

std::string answer_text(const compare::Answer& answer) {
  std::string text;
  for (const Statement* said : {&answer.loudness, &answer.hum, &answer.ping, answer.main ? &*answer.main : nullptr}) {
    if (!said) continue;
    // Of a foreign table hum and ping were never asked for.
    if (said->change == Change::no_number && said != &answer.loudness && said->why_not == "nothing was measured of it") continue;
    text += (text.empty() ? "" : " ") + statement_text(*said) + ".";
  }
  return text;
}

std::string headline(const compare::Comparison& comparison) {
  struct Asked {
    const char* what;
    const char* less;
    const char* more;
  };
  static constexpr std::array<Asked, 3> kAsked = {{{"Loudness", "quieter", "louder"}, {"Hum", "less", "more"}, {"Ping", "less", "more"}}};
  std::string text;
  for (std::size_t which = 0; which < kAsked.size(); ++which) {
    const bool any = std::ranges::any_of(comparison.answers, [&](const auto& answer) { return of(answer, which).change != Change::no_number; });
    if (!any) continue;
    const auto& first = of(comparison.answers.front(), which);
    const bool foreign = which == 0 && first.number != kGeneral;
    const auto less = those_with(comparison, which, Change::less);
    const auto more = those_with(comparison, which, Change::more);
    std::string said;
    if (!less.empty()) said += fmt::format("{} with {}", foreign ? "less" : kAsked[which].less, listed(less));
    if (!more.empty()) said += fmt::format("{}{} with {}", said.empty() ? "" : "; ", foreign ? "more" : kAsked[which].more, listed(more));
    if (said.empty()) said = "no difference shown";
    text += fmt::format("{}{}: {}.", text.empty() ? "" : " ", foreign ? capital(first.label) : kAsked[which].what, said);
  }
  return text;
}

std::vector<std::string> else_texts(const compare::Answer& answer) {
  std::vector<std::string> texts;
  for (const Statement& said : answer.others) {
    // The parts of a score are said with it.
    if (said.number.starts_with("hum_") || said.number.starts_with("ping_")) continue;
    texts.push_back(fmt::format("{} {}", said.label, from_to(said)));
  }
  return texts;
}

std::string sureness_text(const compare::Comparison& comparison) {
  std::size_t fewest = 0;
  std::size_t most = 0;
  auto from = compare::SpreadFrom::these_blocks;
  for (const auto& answer : comparison.answers) {
    for (const std::size_t blocks : {answer.loudness.from_blocks, answer.loudness.to_blocks}) {
      fewest = fewest == 0 ? blocks : std::min(fewest, blocks);
      most = std::max(most, blocks);
    }
    from = std::max(from, answer.loudness.spread_from);
  }
  const std::string blocks = fewest == most ? fmt::format("{} {}", most, block_word(most)) : fmt::format("{} to {} blocks", fewest, most);
  std::string text = fmt::format("It rests on {} a set-up. ", blocks);
  switch (from) {
    case compare::SpreadFrom::these_blocks:
    case compare::SpreadFrom::these_sessions: text += "How much blocks wander by themselves was seen in these blocks"; break;
    case compare::SpreadFrom::logbook: text += "How much blocks wander by themselves was seen in the logbook's other sessions"; break;
    case compare::SpreadFrom::assumed:
      return text + "Nobody knows how much blocks of this bow wander by themselves: it is assumed, and nothing is claimed from that.";
  }
  return text + "; by luck alone loudness, ring-down or tones would each be said to differ in about 1 of 20 such evenings.";
}

std::vector<std::string> next_texts(const compare::Comparison& comparison) {
  std::vector<std::string> texts;
  // Blocks are shot in turn, so that one sentence serves all set-ups that need more.
  std::size_t blocks = 0;
  std::vector<std::string> names;
  for (const auto& answer : comparison.answers) {
    if (answer.against_control) continue;
    if (answer.next == compare::NextStep::more_blocks) {
      blocks = std::max(blocks, answer.blocks);
      if (names.empty()) names.push_back("'" + answer.against + "'");
      names.push_back("'" + answer.setup + "'");
      continue;
    }
    auto text = step_text(answer);
    if (!text.empty() && std::ranges::find(texts, text) == texts.end()) texts.push_back(std::move(text));
  }
  if (blocks > 0) {
    texts.push_back(fmt::format("{} more {} each of {}, in turn there and back, would probably settle what is open.", blocks, block_word(blocks),
                                listed(names)));
  }
  if (texts.empty()) texts.emplace_back("Nothing more is needed for these questions.");
  return texts;
}

std::string ranking_text(const compare::Ranking& ranking) {
  if (ranking.pairs.empty()) return "";
  const auto& measure = *ranking.pairs.front().number;
  const std::string name = ranking.number == kGeneral ? "Loudness" : capital(measure.label);
  std::string text;
  std::size_t last = 0;
  for (const auto& placed : ranking.places) {
    const std::string own = fmt::format("{} {}", placed.setup, plain_number(placed.mean, measure.decimals));
    text += text.empty() ? fmt::format("{} {}", placed.place, own) : placed.place == last ? ", " + own : fmt::format("; {} {}", placed.place, own);
    last = placed.place;
  }
  const bool ties = std::ranges::any_of(ranking.places, [](const auto& placed) { return !placed.tied_with.empty(); });
  return fmt::format("{}, least first: {}{}{}.", name, text, measure.unit == "points" ? "" : " " + measure.unit,
                     ties ? " (what shares a place is not told apart)" : "");
}

std::vector<std::string> rating_texts(const compare::Session& session, const std::string& baseline) {
  std::vector<std::string> texts;
  for (const auto& contrast : compare::rating_contrasts(session, baseline)) {
    if (!contrast.said.difference) continue;
    const bool said_less = contrast.said.difference->difference < 0.0;
    const std::string said = contrast.opposite_expected ? fmt::format("a {} feel", said_less ? "worse" : "better")
                                                        : fmt::format("{} {}", said_less ? "less" : "more", contrast.rating);
    const std::string measured = std::string(contrast.measured.number->label);
    switch (contrast.ranked) {
      case compare::Ranked::same_way:
        texts.push_back(contrast.opposite_expected ? fmt::format("{}: {} was said, {} {} measured: they agree.", contrast.setup, said,
                                                                 said_less ? "more" : "less", measured)
                                                   : fmt::format("{}: {} was said and measured: they agree.", contrast.setup, said));
        break;
      case compare::Ranked::opposite:
        texts.push_back(fmt::format("{}: {} was said, but {} {} measured: they disagree.", contrast.setup, said,
                                    contrast.measured.difference && contrast.measured.difference->difference < 0.0 ? "less" : "more", measured));
        break;
      case compare::Ranked::said_only:
        texts.push_back(fmt::format("{}: {} was said; no difference of {} is shown.", contrast.setup, said, measured));
        break;
      case compare::Ranked::measured_only:
      case compare::Ranked::open: break;
    }
  }
  return texts;
}

std::vector<std::string> doubt_texts(const compare::Comparison& comparison) {
  std::vector<std::string> texts;
  for (const auto& finding : comparison.findings) {
    // Where the dummy was shot the mass is no doubt any more.
    const bool answered = finding.code == "added_mass_differs" && std::ranges::any_of(comparison.controls, [&](const auto& control) {
      return finding.sentence.starts_with("'" + control.setup + "'") || finding.sentence.starts_with("'" + control.control + "'");
    });
    const bool left_out = finding.code == "block_dropped" || finding.code == "shot_left_out";
    if (!answered && (left_out || finding.severity != Severity::note)) texts.push_back(finding.sentence);
  }
  return texts;
}

std::string asked(const compare::Comparison& comparison) {
  return comparison.main_number == kGeneral ? "Which is quieter and deader?" : question(comparison);
}

}  // namespace ringfall::report
