// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "base/text.h"

namespace ringfall::report {
namespace {

const compare::NumberDifference* row_of(const compare::SetUpComparison& against, std::string_view id) {
  const auto row = std::ranges::find_if(against.numbers, [id](const auto& entry) { return entry.number->id == id; });
  return row == against.numbers.end() ? nullptr : &*row;
}

bool settled(const stats::Difference& difference) { return !difference.interval.contains(0.0); }

std::string change_text(const compare::NumberDifference& row) {
  const auto& difference = *row.difference;
  const int decimals = row.number->decimals;
  return fmt::format("{} {} (95 % interval {})", signed_number(difference.difference, decimals), row.number->unit,
                     interval_text(difference.interval, decimals));
}

/// One weighting's sentence.
std::string ring_down_sentence(const std::string& setup, const std::string& baseline, const char* weighting,
                               const compare::NumberDifference& early, const compare::NumberDifference& late) {
  const std::string head = fmt::format("{} against '{}', {}: ", setup, baseline, weighting);
  const bool early_settled = settled(*early.difference);
  const bool late_settled = settled(*late.difference);
  if (!early_settled && !late_settled) return head + "no change of early or late ring-down is settled.";
  if (!late_settled) return head + fmt::format("early ring-down {}; late ring-down not settled.", change_text(early));
  if (!early_settled) return head + fmt::format("late ring-down {}; early ring-down not settled.", change_text(late));
  const double first = early.difference->difference;
  const double last = late.difference->difference;
  const char* said = first < 0.0 ? (last > 0.0 ? "dies faster but lasts longer" : "dies faster in both parts")
                                 : (last > 0.0 ? "dies slower in both parts" : "dies slower at first but ends sooner");
  return head + fmt::format("{}. Early ring-down {}, late ring-down {}.", said, change_text(early), change_text(late));
}

}  // namespace

std::string signed_number(double value, int decimals) {
  const std::string text = plain_number(value, decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return zero || text.front() == '-' ? text : "+" + text;
}

std::string interval_text(const stats::Interval& interval, int decimals) {
  // An interval that excludes 0 must not look as if it held it: "-8.3 to -0.4", not "-8 to 0".
  constexpr int kMostDecimals = 6;
  const auto reads_zero = [&](double end) { return plain_number(end, decimals).find_first_not_of("-0.") == std::string::npos; };
  if (!interval.contains(0.0)) {
    while (decimals < kMostDecimals && (reads_zero(interval.low) || reads_zero(interval.high))) ++decimals;
  }
  return signed_number(interval.low, decimals) + " to " + signed_number(interval.high, decimals);
}

std::string p_text(double p) { return p < 0.001 ? "<0.001" : plain_number(p, 3); }

std::string unit_word(stats::Unit unit, std::size_t count) {
  const std::string word = unit == stats::Unit::block ? "block" : "shot";
  return count == 1 ? word : word + "s";
}

std::string main_sentence(const compare::SetUpComparison& against, const std::string& baseline) {
  const auto& main = against.numbers.front();
  const std::string label(main.number->label);
  if (!main.difference) {
    return fmt::format("{}: {} can't be compared with '{}': {} of its shots and {} of the baseline's have a value.",
                       against.setup, label, baseline, main.setup.n, main.baseline.n);
  }
  const int decimals = main.number->decimals;
  std::string sentence = fmt::format(
      "{}: {} is {} {} against '{}', 95 % interval {} ({} + {} {}): {}.", against.setup, label,
      signed_number(main.difference->difference, decimals), main.number->unit, baseline,
      interval_text(main.difference->interval, decimals), against.setup_units, against.baseline_units,
      unit_word(against.unit, 2), compare::verdict_words(main.verdict));
  if (main.verdict == compare::Verdict::not_settled && main.units_to_settle) {
    sentence += fmt::format(" About {} {} each would settle it.", *main.units_to_settle,
                            unit_word(against.unit, *main.units_to_settle));
  }
  return sentence;
}

std::vector<std::string> ring_down_sentences(const compare::SetUpComparison& against, const std::string& baseline) {
  struct Weighting {
    const char* early;
    const char* late;
    const char* words;
  };
  std::vector<std::string> sentences;
  for (const Weighting& weighting : {Weighting{"early_s", "late_s", "A-weighted"},
                                     Weighting{"early_z_s", "late_z_s", "unweighted"}}) {
    const auto* early = row_of(against, weighting.early);
    const auto* late = row_of(against, weighting.late);
    if (!early || !late || !early->difference || !late->difference) continue;
    sentences.push_back(ring_down_sentence(against.setup, baseline, weighting.words, *early, *late));
  }
  return sentences;
}

std::vector<std::string> care_sentences(const compare::Comparison& comparison, const compare::SetUpComparison& against) {
  const auto& main = against.numbers.front();
  const int decimals = main.number->decimals;
  std::vector<std::string> sentences;
  const char* judged = against.order.judgement == compare::OrderJudgement::balanced  ? "a steady drift cancels"
                       : against.order.judgement == compare::OrderJudgement::leaning ? "a steady drift is in it in part"
                                                                                     : "a steady drift can't be told from it";
  std::string order = fmt::format("Shooting order {} (A '{}', B '{}'): {}", against.order.blocks, comparison.baseline, against.setup,
                                  judged);
  if (comparison.drift) {
    const auto& drift = *comparison.drift;
    order += fmt::format("; the drift seen is {} {} over the session", signed_number(drift.over_session, decimals + 1),
                         main.number->unit);
    if (drift.per_shot.interval) {
      const double steps = drift.per_shot.slope == 0.0 ? 0.0 : drift.over_session / drift.per_shot.slope;
      if (steps > 0.0) {
        order += fmt::format(" (95 % interval {})", interval_text({drift.per_shot.interval->low * steps,
                                                                   drift.per_shot.interval->high * steps}, decimals + 1));
      }
    }
    if (against.drift_in_difference && against.order.judgement != compare::OrderJudgement::balanced) {
      order += fmt::format(", {} of the difference", signed_number(*against.drift_in_difference, decimals + 1));
    }
  }
  sentences.push_back(order + ".");
  if (main.with_drops) {
    sentences.push_back(fmt::format("With what was left out the difference would be {} {} (95 % interval {}).",
                                    signed_number(main.with_drops->difference, decimals), main.number->unit,
                                    interval_text(main.with_drops->interval, decimals)));
  }
  const bool wild = std::ranges::any_of(comparison.outlying, [&](const auto& shot) { return shot.measure == main.number->id; });
  if (wild && main.robust) {
    std::string text = fmt::format("Wild shots count; a measure that they hardly move gives {} {}",
                                   signed_number(main.robust->shift, decimals), main.number->unit);
    if (main.robust->interval) text += fmt::format(" (95 % interval {})", interval_text(*main.robust->interval, decimals));
    sentences.push_back(text + ".");
  }
  return sentences;
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t k = 0; k < words.size(); ++k) {
    if (k > 0) text += k + 1 == words.size() ? " and " : ", ";
    text += words[k];
  }
  return text;
}

std::string question(const compare::Comparison& comparison) {
  const shot::Number* number = shot::find_number(comparison.main_number);
  std::string label(number ? number->label : std::string_view(comparison.main_number));
  if (!label.empty()) label[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(label[0])));
  std::vector<std::string> others;
  for (const auto& against : comparison.against) others.push_back("'" + against.setup + "'");
  return fmt::format("{}: {} {} differ from '{}'?", label, others.size() == 1 ? "does" : "do", listed(others),
                     comparison.baseline);
}

}  // namespace ringfall::report
