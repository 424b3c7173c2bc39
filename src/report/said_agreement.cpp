// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/said_agreement.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "report/sentences.h"

namespace ringfall::report {
namespace {

using Rating = std::optional<double> compare::Said::*;

struct Question {
  const char* rating;
  Rating of;
  const char* number;
  bool opposite_expected;
};

constexpr std::array kQuestions = {
    Question{"hum", &compare::Said::hum, "hum", false},
    Question{"ping", &compare::Said::ping, "ping", false},
    Question{"loud", &compare::Said::loud, "loudness_sone", false},
    Question{"feel", &compare::Said::feel, "hum", true},
};

std::string sentence_of(const Agreement& agreement) {
  const std::string pair = fmt::format("'{}' as said and {} as measured", agreement.rating, agreement.number->label);
  if (!agreement.rank) {
    return fmt::format("{}: {} {} with both and no order to compare (three shots and some spread are needed).", pair,
                       agreement.said.size(), unit_word(stats::Unit::shot, agreement.said.size()));
  }
  const auto& rank = *agreement.rank;
  std::string how = "not settled: no common order shown";
  // Without an interval (too few pairs, or full agreement) only the p value can speak.
  const bool shown = rank.interval ? !rank.interval->contains(0.0) && rank.p < 0.05 : rank.p < 0.05;
  if (shown) {
    const bool against = (rank.coefficient < 0.0) != agreement.opposite_expected;
    if (against) {
      how = "they contradict each other: the order is the opposite of what the words say";
    } else if (agreement.opposite_expected) {
      how = fmt::format("they agree: the more {}, the worse the {}", agreement.number->label, agreement.rating);
    } else {
      how = "they agree in order";
    }
  }
  return pair + ": " + how + ".";
}

}  // namespace

std::vector<Agreement> agreements(const compare::Session& session) {
  std::vector<Agreement> all;
  for (const Question& question : kQuestions) {
    Agreement agreement;
    agreement.rating = question.rating;
    agreement.number = shot::find_number(question.number);
    agreement.opposite_expected = question.opposite_expected;
    for (const auto* block : session.kept()) {
      for (const auto& entry : block->shots) {
        const auto said = entry.said.*question.of;
        const auto measured = agreement.number->of(entry.shot);
        if (!said || !measured) continue;
        agreement.setups.push_back(block->setup);
        agreement.said.push_back(*said);
        agreement.measured.push_back(*measured);
      }
    }
    if (agreement.said.empty()) continue;
    agreement.rank = stats::kendall(agreement.said, agreement.measured);
    agreement.sentence = sentence_of(agreement);
    all.push_back(std::move(agreement));
  }
  return all;
}

}  // namespace ringfall::report
