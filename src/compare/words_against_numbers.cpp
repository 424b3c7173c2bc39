// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/words_against_numbers.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <map>

#include "stats/summary.h"

namespace ringfall::compare {
namespace {

struct RatingQuestion {
  const char* rating;
  std::optional<double> Said::*of;
  const char* number;
  bool opposite_expected;
};

constexpr std::array kRatingQuestions = {
    RatingQuestion{"hum", &Said::hum, "hum", false},
    RatingQuestion{"ping", &Said::ping, "ping", false},
    RatingQuestion{"loud", &Said::loud, "loudness_sone", false},
    RatingQuestion{"feel", &Said::feel, "hum", true},
};
constexpr double kAlpha = 0.05;
constexpr double kFewestForPower = 16.0;   // effective pairs
constexpr double kBetweenShare = 1.0;      // of what is noticeable
constexpr double kBetweenDeviation = 0.25;

/// Is the rating's name a word of the column's: "hum level", "Hum [dB]", but not "thump"?
bool names(const std::string& column, std::string_view rating) {
  std::string word;
  for (std::size_t k = 0; k <= column.size(); ++k) {
    const auto letter = static_cast<unsigned char>(k < column.size() ? column[k] : ' ');
    if (std::isalpha(letter) != 0) {
      word += static_cast<char>(std::tolower(letter));
      continue;
    }
    if (word == rating) return true;
    word.clear();
  }
  return false;
}

std::vector<Measure> measures_for(const RatingQuestion& question, const std::vector<Measure>& measures, bool foreign,
                                  const std::string& main_number) {
  std::vector<Measure> wanted;
  for (const Measure& measure : measures) {
    const bool named = foreign ? names(measure.id, question.rating) : measure.id == question.number;
    if (named) wanted.push_back(measure);
  }
  if (!wanted.empty() || !foreign) return wanted;
  for (const Measure& measure : measures) {
    if (measure.id == main_number) wanted.push_back(measure);
  }
  return wanted;
}

/// The shots of a block with both, or the block as one when it was only rated as a whole.
void add_pairs(const SessionBlock& block, std::size_t index, const RatingQuestion& question, const Measure& measure, RatingAgreement& agreement) {
  const auto add = [&](double said, double measured, bool blind) {
    agreement.setups.push_back(block.setup);
    agreement.block_of.push_back(index);
    agreement.session_of.push_back(block.session);
    agreement.said.push_back(said);
    agreement.measured.push_back(measured);
    if (blind) ++agreement.blind;
  };
  bool by_shot = false;
  std::vector<double> values;
  for (const SessionShot& entry : block.shots) {
    const auto said = entry.said.*question.of;
    const auto measured = measure.of(entry);
    by_shot = by_shot || said;
    if (measured) values.push_back(*measured);
    if (said && measured) add(*said, *measured, entry.said.blind);
  }
  const auto said = block.said.*question.of;
  if (by_shot || !said || values.empty()) return;
  add(*said, *stats::mean(values), block.said.blind);
  ++agreement.blocks;
}

/// Each value less the mean of its session, where there are several.
std::vector<double> within_sessions(const std::vector<double>& values, const std::vector<int>& session_of) {
  std::map<int, std::vector<double>> sessions;
  for (std::size_t k = 0; k < values.size(); ++k) sessions[session_of[k]].push_back(values[k]);
  if (sessions.size() < 2) return values;
  std::vector<double> centred;
  for (std::size_t k = 0; k < values.size(); ++k) centred.push_back(values[k] - *stats::mean(sessions[session_of[k]]));
  return centred;
}

/// Each value less the mean of its set-up in its session: what set-ups differ by is another question (rating_contrast.h).
std::vector<double> within_setups(const std::vector<double>& values, const RatingAgreement& agreement) {
  std::map<std::pair<int, std::string>, std::vector<double>> cells;
  const auto cell = [&](std::size_t k) { return std::pair(agreement.session_of[k], agreement.setups[k]); };
  for (std::size_t k = 0; k < values.size(); ++k) cells[cell(k)].push_back(values[k]);
  std::vector<double> centred;
  for (std::size_t k = 0; k < values.size(); ++k) centred.push_back(values[k] - *stats::mean(cells[cell(k)]));
  return centred;
}

std::optional<stats::RankAgreement> over_setups(const RatingAgreement& agreement, const std::vector<double>& all_said,
                                                const std::vector<double>& all_measured, std::size_t& count) {
  std::map<std::string, std::pair<std::vector<double>, std::vector<double>>> by_setup;
  for (std::size_t k = 0; k < agreement.said.size(); ++k) {
    by_setup[agreement.setups[k]].first.push_back(all_said[k]);
    by_setup[agreement.setups[k]].second.push_back(all_measured[k]);
  }
  count = by_setup.size();
  std::vector<double> said;
  std::vector<double> measured;
  for (const auto& [setup, pairs] : by_setup) {
    said.push_back(*stats::mean(pairs.first));
    measured.push_back(*stats::mean(pairs.second));
  }
  return stats::kendall(said, measured);
}

void judge(RatingAgreement& agreement) {
  const auto said = within_sessions(agreement.said, agreement.session_of);
  const auto measured = within_sessions(agreement.measured, agreement.session_of);
  agreement.over_setups = over_setups(agreement, said, measured, agreement.setup_count);
  const auto said_inside = within_setups(agreement.said, agreement);
  const auto measured_inside = within_setups(agreement.measured, agreement);
  const auto tau = stats::kendall_in_blocks(said_inside, measured_inside, agreement.block_of);
  const auto rho = stats::spearman_in_blocks(said_inside, measured_inside, agreement.block_of);
  const auto pairs = agreement.said.size();
  agreement.effective_pairs = static_cast<double>(pairs);
  if (!tau || !rho) return;
  agreement.rank = tau->agreement;
  agreement.spearman = rho->agreement;
  agreement.effective_pairs = tau->effective_n;
  if (agreement.spearman->p < kAlpha) return;
  if (const auto needed = stats::pairs_for_power(agreement.spearman->coefficient)) {
    const double a_pair = static_cast<double>(pairs) / agreement.effective_pairs;
    // Of fewer, Student's quantile asks for more than that count knows: 10 showed in 62 to 68 of 100 made-up sessions.
    const double alone = std::max(static_cast<double>(*needed), a_pair > 1.0 ? kFewestForPower : 0.0);
    const double in_blocks = std::ceil(alone * a_pair);
    agreement.pairs_needed = std::max(static_cast<std::size_t>(in_blocks), pairs + 1);
  }
}

/// Middle of a number over all kept shots, and how near to it a value says nothing.
struct Middle {
  double median = 0.0;
  double reach = 0.0;
};

std::optional<Middle> middle_of(const Session& session, const shot::Number& number) {
  std::vector<double> values;
  for (const SessionBlock* block : session.kept()) {
    for (const SessionShot& entry : block->shots) {
      if (const auto value = number.of(entry.shot)) values.push_back(*value);
    }
  }
  const auto median = stats::median(values);
  if (!median || values.size() < 2) return std::nullopt;
  const double reach = number.noticeable > 0.0 ? kBetweenShare * number.noticeable
                                               : kBetweenDeviation * stats::standard_deviation(values).value_or(0.0);
  return Middle{*median, reach};
}

WordOutcome outcome_of(double off, const Middle& middle, bool much) {
  if (std::abs(off) <= middle.reach) return WordOutcome::between;
  return (off > 0.0) == much ? WordOutcome::agrees : WordOutcome::disagrees;
}

std::optional<double> mean_of(const SessionBlock& block, const shot::Number& number) {
  std::vector<double> values;
  for (const SessionShot& entry : block.shots) {
    if (const auto value = number.of(entry.shot)) values.push_back(*value);
  }
  return stats::mean(values);
}

}  // namespace

std::vector<RatingAgreement> rating_agreements(const Session& session, const std::string& main_number) {
  const auto measures = measures_of(session);
  std::vector<RatingAgreement> all;
  for (const RatingQuestion& question : kRatingQuestions) {
    for (const Measure& measure : measures_for(question, measures, !session.columns.empty(), main_number)) {
      RatingAgreement agreement;
      agreement.rating = question.rating;
      agreement.number = std::make_shared<const Measure>(measure);
      agreement.opposite_expected = question.opposite_expected && session.columns.empty();
      agreement.direction_known = session.columns.empty() || names(measure.id, question.rating);
      const auto kept = session.kept();
      for (std::size_t k = 0; k < kept.size(); ++k) add_pairs(*kept[k], k, question, measure, agreement);
      if (agreement.said.empty()) continue;
      judge(agreement);
      all.push_back(std::move(agreement));
    }
  }
  return all;
}

std::vector<WordCheck> word_checks(const Session& session) {
  std::vector<WordCheck> checks;
  std::map<std::string_view, std::optional<Middle>> middles;
  const auto hold = [&](WordCheck check, auto&& value_of) {
    if (const shot::Number* number = shot::find_number(aspect_number(check.said.aspect))) {
      const auto known = middles.try_emplace(number->id);
      if (known.second) known.first->second = middle_of(session, *number);
      check.value = value_of(*number);
      if (const auto& middle = known.first->second; check.value && middle) {
        check.middle = middle->median;
        check.outcome = outcome_of(*check.value - middle->median, *middle, check.said.direction > 0);
      }
    }
    checks.push_back(std::move(check));
  };
  for (const SessionBlock* block : session.kept()) {
    for (WordSaid& said : words_said(block->said.words)) {
      hold({block->setup, block->file, 0, block->block, std::move(said), {}, {}, WordOutcome::no_number},
           [&](const shot::Number& number) { return mean_of(*block, number); });
    }
    for (const SessionShot& entry : block->shots) {
      for (WordSaid& said : words_said(entry.said.words)) {
        hold({block->setup, block->file, entry.shot.number, entry.id, std::move(said), {}, {}, WordOutcome::no_number},
             [&](const shot::Number& number) { return number.of(entry.shot); });
      }
    }
  }
  return checks;
}

}  // namespace ringfall::compare
