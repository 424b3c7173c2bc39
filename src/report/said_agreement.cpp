// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/said_agreement.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <map>
#include <utility>

#include "base/text.h"
#include "report/sentences.h"
#include "shot/numbers.h"

namespace ringfall::report {
namespace {

/// "12 shots", "10 shots and 2 whole blocks, 4 said blind", "30 shots; sharing the luck of their blocks they tell as much as 12".
std::string pairs_text(const Agreement& agreement) {
  const std::size_t shots = agreement.said.size() - agreement.blocks;
  std::string text = shots > 0 || agreement.blocks == 0 ? counted(shots, "shot") : "";
  if (agreement.blocks > 0) text += (text.empty() ? "" : " and ") + counted(agreement.blocks, "whole block");
  if (agreement.blind > 0) text += fmt::format(", {} said blind", agreement.blind == agreement.said.size() ? "all" : std::to_string(agreement.blind));
  const auto alone = static_cast<std::size_t>(std::lround(agreement.effective_pairs));
  if (alone < agreement.said.size()) {
    text += fmt::format("; sharing the luck of their blocks they tell as much as {}", alone);
  }
  return text;
}

std::string sentence_of(const Agreement& agreement) {
  const std::string pair = fmt::format("'{}' as said and {} as measured", agreement.rating, agreement.number->label);
  if (!agreement.rank) {
    return fmt::format("{}: {} with both and no order to compare (three and some spread are needed).", pair, pairs_text(agreement));
  }
  const auto& rank = *agreement.rank;
  std::string how = "not settled: no common order shown";
  // Without an interval (too few pairs, or full agreement) only the p value can speak.
  const bool shown = rank.interval ? !rank.interval->contains(0.0) && rank.p < 0.05 : rank.p < 0.05;
  if (shown) {
    const bool against = (rank.coefficient < 0.0) != agreement.opposite_expected;
    if (!agreement.direction_known) {
      how = fmt::format("the higher the one, the {} the other", rank.coefficient > 0.0 ? "higher" : "lower");
    } else if (against) {
      how = "they contradict each other: the order is the opposite of what the words say";
    } else if (agreement.opposite_expected) {
      how = fmt::format("they agree: the more {}, the worse the {}", agreement.number->label, agreement.rating);
    } else {
      how = "they agree in order";
    }
  } else if (agreement.pairs_needed) {
    how += fmt::format("; with {}{} it would show in 8 of 10 such sessions, if the order is truly this close",
                       counted(*agreement.pairs_needed, "shot"),
                       agreement.effective_pairs < static_cast<double>(agreement.said.size()) ? " in such blocks" : "");
  }
  return fmt::format("{}: {} ({}).", pair, how, pairs_text(agreement));
}

}  // namespace

std::vector<Agreement> agreements(const compare::Session& session, const std::string& main_number) {
  std::vector<Agreement> all;
  for (auto& found : compare::rating_agreements(session, main_number)) {
    Agreement agreement{std::move(found), {}};
    agreement.sentence = sentence_of(agreement);
    all.push_back(std::move(agreement));
  }
  return all;
}

std::string word_check_text(const compare::WordCheck& check) {
  const std::string head = fmt::format("'{}' ({})", check.said.words, compare::aspect_name(check.said.aspect));
  const auto* number = shot::find_number(compare::aspect_number(check.said.aspect));
  if (!number) return head + ": no number of a shot speaks of it";
  if (!check.value || !check.middle) return fmt::format("{}: the shot has no {}", head, number->label);
  const char* outcome = check.outcome == compare::WordOutcome::agrees      ? "agrees"
                        : check.outcome == compare::WordOutcome::disagrees ? "disagrees"
                                                                           : "too near the middle to say";
  return fmt::format("{}: {} {} {}, middle of all shots {}: {}", head, number->label, plain_number(check.value, number->decimals),
                     number->unit, plain_number(check.middle, number->decimals), outcome);
}

std::vector<std::string> word_check_lines(const std::vector<compare::WordCheck>& checks) {
  const auto place = [](const compare::WordCheck& check) {
    if (check.number == 0) return fmt::format("block {}", check.id);
    return check.id > 0 ? fmt::format("shot {}", check.id) : fmt::format("{} {}", check.file, check.number);
  };
  std::vector<std::string> lines;
  // By aspect and outcome, then by words, then by recording: a shot's number follows its recording's name.
  using Numbers = std::map<std::string, std::vector<std::string>>;
  std::map<std::pair<std::string, std::string>, std::map<std::string, Numbers>> others;
  for (const auto& check : checks) {
    if (check.outcome == compare::WordOutcome::disagrees) {
      lines.push_back(fmt::format("{} ('{}'), {}.", place(check), check.setup, word_check_text(check)));
      continue;
    }
    const char* outcome = check.outcome == compare::WordOutcome::agrees    ? "agree"
                          : check.outcome == compare::WordOutcome::between ? "too near the middle to say"
                                                                           : "no number speaks of it";
    Numbers& numbers = others[{std::string(compare::aspect_name(check.said.aspect)), outcome}][check.said.words];
    const bool shot = check.number != 0;
    numbers[!shot ? "block" : check.id > 0 ? "shot" : check.file].push_back(std::to_string(!shot || check.id > 0 ? check.id : check.number));
  }
  for (const auto& [key, words] : others) {
    std::vector<std::string> said;
    for (const auto& [word, numbers] : words) {
      std::vector<std::string> places;
      for (const auto& [of, which] : numbers) places.push_back(fmt::format("{} {}", of, fmt::join(which, ", ")));
      said.push_back(fmt::format("'{}' {}", word, fmt::join(places, "; ")));
    }
    lines.push_back(fmt::format("{}, {}: {}.", key.first, key.second, fmt::join(said, "; ")));
  }
  return lines;
}

}  // namespace ringfall::report
