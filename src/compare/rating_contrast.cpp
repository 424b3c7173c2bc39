// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/rating_contrast.h"

#include <algorithm>
#include <array>

namespace ringfall::compare {
namespace {

struct ContrastQuestion {
  const char* rating;
  std::optional<double> Said::*of;
  const char* number;
  bool opposite;
};

constexpr std::array kContrastQuestions = {
    ContrastQuestion{"hum", &Said::hum, "hum", false},
    ContrastQuestion{"ping", &Said::ping, "ping", false},
    ContrastQuestion{"loud", &Said::loud, "loudness_sone", false},
    ContrastQuestion{"feel", &Said::feel, "hum", true},
};

/// The same blocks with ratings for values.
Session session_of_ratings(const Session& session, const ContrastQuestion& question) {
  Session ratings;
  ratings.columns.push_back({question.rating, "points", 1, 0.0});
  for (const SessionBlock& block : session.blocks) {
    SessionBlock rated;
    rated.session = block.session;
    rated.file = block.file;
    rated.setup = block.setup;
    rated.dropped = block.dropped;
    bool by_shot = false;
    for (const SessionShot& entry : block.shots) {
      SessionShot own;
      own.values = {entry.said.*question.of};
      by_shot = by_shot || own.values[0];
      rated.shots.push_back(std::move(own));
    }
    if (!by_shot && !rated.shots.empty()) rated.shots[0].values = {block.said.*question.of};
    ratings.blocks.push_back(std::move(rated));
  }
  return ratings;
}

Ranked ranked_of(const RatingContrast& contrast) {
  const bool said = contrast.said.difference && claims_difference(contrast.said.verdict);
  const bool measured = contrast.measured.difference && claims_difference(contrast.measured.verdict);
  if (!said && !measured) return Ranked::open;
  if (!measured) return Ranked::said_only;
  if (!said) return Ranked::measured_only;
  const double number = contrast.measured.at_least.value_or(contrast.measured.difference->difference);
  const bool alike = (contrast.said.difference->difference < 0.0) == (number < 0.0);
  return alike != contrast.opposite_expected ? Ranked::same_way : Ranked::opposite;
}

}  // namespace

std::vector<RatingContrast> rating_contrasts(const Session& session, const std::string& baseline) {
  std::vector<RatingContrast> all;
  if (!session.columns.empty()) return all;  // nobody says which column a rating is about
  for (const ContrastQuestion& question : kContrastQuestions) {
    const Session ratings = session_of_ratings(session, question);
    const Measure rating = measures_of(ratings).front();
    const Measure number = measure_of(*shot::find_number(question.number));
    for (const std::string& setup : session.setups()) {
      if (setup == baseline) continue;
      RatingContrast contrast;
      contrast.rating = question.rating;
      contrast.setup = setup;
      contrast.opposite_expected = question.opposite;
      contrast.said = difference_of(ratings, baseline, setup, rating);
      if (contrast.said.baseline.n == 0 || contrast.said.setup.n == 0) continue;
      contrast.measured = difference_of(session, baseline, setup, number);
      contrast.ranked = ranked_of(contrast);
      all.push_back(std::move(contrast));
    }
  }
  return all;
}

}  // namespace ringfall::compare
