// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

constexpr double kPermutationAlpha = 0.05;

std::string order_sentence(const compare::Comparison& comparison, const compare::SetUpComparison& against) {
  const char* judged = against.order.judgement == compare::OrderJudgement::balanced  ? "a steady drift cancels"
                       : against.order.judgement == compare::OrderJudgement::leaning ? "a steady drift is in it in part"
                                                                                     : "a steady drift can't be told from it";
  return fmt::format("Shooting order {} (A '{}', B '{}'): {}.", against.order.blocks, comparison.baseline, against.setup, judged);
}

/// Empty: no drift can be seen.
std::string drift_sentence(const compare::Comparison& comparison, const compare::SetUpComparison& against) {
  if (!comparison.drift) return "";
  const auto& drift = *comparison.drift;
  const auto& number = *against.numbers.front().number;
  const int decimals = number.decimals + 1;
  const std::string seen = fmt::format("{} {} over the session", signed_number(drift.over_session, decimals), number.unit);
  if (!drift.over_session_interval) return fmt::format("Whether it drifted can't be said: {} is seen, from too few shots.", seen);
  const std::string interval = fmt::format("95 % interval {}, less sure than that where blocks wander, since the shots of one block "
                                           "share its luck", interval_text(*drift.over_session_interval, decimals));
  if (drift.over_session_interval->contains(0.0)) return fmt::format("Whether it drifted is not settled: {} is seen ({}).", seen, interval);
  std::string text = fmt::format("It seems to have drifted by {} ({})", seen, interval);
  if (against.drift_in_difference && against.order.judgement != compare::OrderJudgement::balanced) {
    text += fmt::format("; if it did so steadily, {} {} of the difference is drift",
                        signed_number(*against.drift_in_difference, decimals), number.unit);
  }
  return text + ".";
}

std::string permutation_sentence(const compare::NumberDifference& main) {
  std::string text = fmt::format("With the set-ups' names exchanged at random among the {} of a session, a difference as large comes "
                                 "with p {}", block_word(2), p_text(main.permutation_p));
  if (main.smallest_permutation_p > kPermutationAlpha) {
    text += fmt::format("; with so few {} no p under {} is possible that way", block_word(2), p_text(main.smallest_permutation_p));
  }
  return text + ".";
}

}  // namespace

std::string wanted_sentence(const compare::Comparison& comparison, const compare::SetUpComparison& against) {
  const auto& main = against.numbers.front();
  const std::string wanted = fmt::format("{:g} {}", *comparison.wanted_difference, main.number->unit);
  const auto needed = compare::units_for_difference(main, *comparison.wanted_difference);
  if (!needed) return fmt::format("How much a difference of {} would need can't be said from these shots.", wanted);
  std::string text = fmt::format("A true difference of {} would be found in 8 of 10 such comparisons with {} {} each: ", wanted,
                                 needed->each, block_word(needed->each));
  if (needed->more_baseline == 0 && needed->more_setup == 0) return text + "they are there.";
  return text + fmt::format("{} more of '{}' and {} more of '{}' are needed.", needed->more_baseline, comparison.baseline,
                            needed->more_setup, against.setup);
}

namespace {

/// Empty: nothing was left out.
std::string drops_sentence(const compare::NumberDifference& main) {
  if (main.drops_add_nothing) return fmt::format("What was left out has no value of {} that would count.", main.number->label);
  if (!main.with_drops) return "";
  return fmt::format("With what was left out the difference would be {} {} (95 % interval {}).",
                     signed_number(main.with_drops->difference, main.number->decimals), main.number->unit,
                     interval_text(main.with_drops->interval, main.number->decimals));
}

/// Empty: no shot lies far out.
std::string wild_sentence(const compare::Comparison& comparison, const compare::NumberDifference& main) {
  const bool wild = std::ranges::any_of(comparison.outlying, [&](const auto& shot) { return shot.measure == main.number->id; });
  if (!wild || !main.robust) return "";
  const int decimals = main.number->decimals;
  std::string text = fmt::format("Wild shots count; a measure that they hardly move gives {} {}",
                                 signed_number(main.robust->shift, decimals), main.number->unit);
  if (main.robust->interval) text += fmt::format(" (95 % interval {})", interval_text(*main.robust->interval, decimals));
  return text + ".";
}

}  // namespace

std::vector<std::string> care_sentences(const compare::Comparison& comparison, const compare::SetUpComparison& against) {
  const auto& main = against.numbers.front();
  std::vector<std::string> all = {order_sentence(comparison, against), drift_sentence(comparison, against)};
  if (main.difference) all.push_back(permutation_sentence(main));
  if (comparison.wanted_difference) all.push_back(wanted_sentence(comparison, against));
  all.push_back(drops_sentence(main));
  all.push_back(wild_sentence(comparison, main));
  std::erase(all, std::string());
  return all;
}

}  // namespace ringfall::report
