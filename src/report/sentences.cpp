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

/// What may be said of a part of the ring-down.
enum class PartSaid { changed, hint, open };

PartSaid said_of(const compare::NumberDifference& row) {
  if (row.difference->interval.contains(0.0)) return PartSaid::open;
  return row.verdict == compare::Verdict::hint ? PartSaid::hint : PartSaid::changed;
}

std::string change_text(const compare::NumberDifference& row) {
  const auto& difference = *row.difference;
  const int decimals = row.number->decimals;
  return fmt::format("{} {} (95 % interval {}){}", signed_number(difference.difference, decimals), row.number->unit,
                     interval_text(difference.interval, decimals),
                     said_of(row) == PartSaid::hint ? ", a hint, may be chance" : "");
}

/// One weighting's sentence.
std::string ring_down_sentence(const std::string& setup, const std::string& baseline, const char* weighting,
                               const compare::NumberDifference& early, const compare::NumberDifference& late) {
  const std::string head = fmt::format("{} against '{}', {}: ", setup, baseline, weighting);
  const PartSaid first = said_of(early);
  const PartSaid last = said_of(late);
  if (first == PartSaid::open && last == PartSaid::open) {
    return head + "whether early or late ring-down changed is not settled.";
  }
  if (last == PartSaid::open) {
    return head + fmt::format("early ring-down {}; whether late ring-down changed is not settled.", change_text(early));
  }
  if (first == PartSaid::open) {
    return head + fmt::format("late ring-down {}; whether early ring-down changed is not settled.", change_text(late));
  }
  std::string said;
  if (first == PartSaid::changed && last == PartSaid::changed) {
    const bool faster = early.difference->difference < 0.0;
    const bool longer = late.difference->difference > 0.0;
    said = faster ? (longer ? "dies faster but lasts longer. " : "dies faster in both parts. ")
                  : (longer ? "dies slower in both parts. " : "dies slower at first but ends sooner. ");
  }
  return head + fmt::format("{}{}arly ring-down {}; late ring-down {}.", said, said.empty() ? "e" : "E", change_text(early),
                            change_text(late));
}

/// Why drift can't be told from a difference; empty: it can.
std::string confounded_by(const compare::SetUpComparison& against, const std::string& baseline) {
  const auto& main = against.numbers.front();
  if (std::min(main.baseline.blocks, main.setup.blocks) < 2) {
    if (main.baseline.blocks == main.setup.blocks) return "one block each";
    return fmt::format("one block of '{}'", main.setup.blocks == 1 ? against.setup : baseline);
  }
  if (against.order.judgement == compare::OrderJudgement::confounded) return fmt::format("order {}", against.order.blocks);
  return "";
}

/// The verdict's words and the doubt that goes with them.
std::string verdict_clause(const compare::SetUpComparison& against, const std::string& baseline) {
  const auto verdict = against.numbers.front().verdict;
  std::string words = compare::verdict_words(verdict);
  const std::string doubt = confounded_by(against, baseline);
  if (doubt.empty()) return words;
  if (compare::claims_difference(verdict) || verdict == compare::Verdict::hint || verdict == compare::Verdict::one_block_only) {
    return words + fmt::format(", but drift can't be told from it ({})", doubt);
  }
  if (verdict == compare::Verdict::at_most_small) {
    return words + fmt::format(", but drift may have hidden one ({})", doubt);
  }
  return words;
}

/// What would settle it; empty: it is settled, or nothing within reason would.
std::string to_settle(const compare::NumberDifference& main) {
  if (main.verdict == compare::Verdict::not_settled_by_blocks) {
    return " The shots differ by little, but those of one block share its luck: record both once more, in the order B A.";
  }
  if (main.verdict == compare::Verdict::one_block_only) return " Record both once more, in the order B A: that would settle it.";
  if (main.verdict != compare::Verdict::not_settled || !main.units_to_settle) return "";
  return fmt::format(" With {} {} each it would be settled in 8 of 10 such comparisons, if the true difference is as found.",
                     *main.units_to_settle, block_word(*main.units_to_settle));
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

std::string block_word(std::size_t count) { return count == 1 ? "block" : "blocks"; }

std::string blocks_text(const compare::Spread& spread) { return fmt::format("{} {}", spread.blocks, block_word(spread.blocks)); }

std::string main_sentence(const compare::SetUpComparison& against, const std::string& baseline) {
  const auto& main = against.numbers.front();
  const std::string& label = main.number->label;
  if (!main.difference) {
    const std::string why = main.sessions == 0 ? std::string("no session has a value of it with both.")
                                               : fmt::format("{} of '{}' and {} of '{}' are too few, or all alike.",
                                                             blocks_text(main.baseline), baseline,
                                                             blocks_text(main.setup), against.setup);
    return fmt::format("{}: {} can't be compared with '{}': {}", against.setup, label, baseline, why);
  }
  const int decimals = main.number->decimals;
  return fmt::format("{}: {} is {} {} against '{}', 95 % interval {} ({} of '{}', {} of '{}'): {}.{}", against.setup, label,
                     signed_number(main.difference->difference, decimals), main.number->unit, baseline,
                     interval_text(main.difference->interval, decimals), blocks_text(main.baseline), baseline,
                     blocks_text(main.setup), against.setup, verdict_clause(against, baseline), to_settle(main));
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
