// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/words_against_numbers.h"

#include <algorithm>
#include <array>
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
constexpr double kBetweenShare = 0.5;      // of what is noticeable
constexpr double kBetweenDeviation = 0.25;

std::vector<Measure> measures_for(const RatingQuestion& question, const std::vector<Measure>& measures, bool foreign,
                                  const std::string& main_number) {
  std::vector<Measure> wanted;
  for (const Measure& measure : measures) {
    const bool named = foreign ? measure.id.find(question.rating) != std::string::npos : measure.id == question.number;
    if (named) wanted.push_back(measure);
  }
  if (!wanted.empty() || !foreign) return wanted;
  for (const Measure& measure : measures) {
    if (measure.id == main_number) wanted.push_back(measure);
  }
  return wanted;
}

std::optional<stats::RankAgreement> over_setups(const RatingAgreement& agreement, std::size_t& count) {
  std::map<std::string, std::pair<std::vector<double>, std::vector<double>>> by_setup;
  for (std::size_t k = 0; k < agreement.said.size(); ++k) {
    by_setup[agreement.setups[k]].first.push_back(agreement.said[k]);
    by_setup[agreement.setups[k]].second.push_back(agreement.measured[k]);
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
      agreement.direction_known = session.columns.empty() || measure.id.find(question.rating) != std::string::npos;
      for (const SessionBlock* block : session.kept()) {
        for (const SessionShot& entry : block->shots) {
          const auto said = entry.said.*question.of;
          const auto measured = measure.of(entry);
          if (!said || !measured) continue;
          agreement.setups.push_back(block->setup);
          agreement.said.push_back(*said);
          agreement.measured.push_back(*measured);
        }
      }
      if (agreement.said.empty()) continue;
      agreement.rank = stats::kendall(agreement.said, agreement.measured);
      agreement.spearman = stats::spearman(agreement.said, agreement.measured);
      agreement.over_setups = over_setups(agreement, agreement.setup_count);
      if (agreement.spearman && agreement.spearman->p >= kAlpha) {
        agreement.pairs_needed = stats::pairs_for_significance(agreement.spearman->coefficient, kAlpha);
      }
      all.push_back(std::move(agreement));
    }
  }
  return all;
}

std::vector<WordCheck> word_checks(const Session& session) {
  std::vector<WordCheck> checks;
  std::map<std::string_view, std::optional<Middle>> middles;
  for (const SessionBlock* block : session.kept()) {
    for (const SessionShot& entry : block->shots) {
      for (WordSaid& said : words_said(entry.said.words)) {
        WordCheck check{block->setup, block->file, entry.shot.number, entry.id, std::move(said), {}, {}, WordOutcome::no_number};
        const shot::Number* number = shot::find_number(aspect_number(check.said.aspect));
        if (number) {
          const auto known = middles.try_emplace(number->id);
          if (known.second) known.first->second = middle_of(session, *number);
          const auto& middle = known.first->second;
          check.value = number->of(entry.shot);
          if (check.value && middle) {
            check.middle = middle->median;
            const double off = *check.value - middle->median;
            check.outcome = std::abs(off) <= middle->reach                 ? WordOutcome::between
                            : (off > 0.0) == (check.said.direction > 0) ? WordOutcome::agrees
                                                                          : WordOutcome::disagrees;
          }
        }
        checks.push_back(std::move(check));
      }
    }
  }
  return checks;
}

}  // namespace ringfall::compare
