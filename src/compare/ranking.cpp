// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <string_view>

#include "compare/answer.h"
#include "compare/values.h"
#include "stats/multiple.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr double kPairAlpha = 0.05;
constexpr double kSameMassAs_kg = 0.005;
constexpr double kSameMassShare = 0.05;
constexpr std::array<std::string_view, 5> kDummyWords = {"dummy", "equal mass", "same mass", "mass only", "dead weight"};

bool speaks_of_dummy(std::string words) {
  std::ranges::transform(words, words.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return std::ranges::any_of(kDummyWords, [&](std::string_view word) { return words.find(word) != std::string::npos; });
}

bool only_adds_mass(const SetUpFacts& facts) {
  return facts.only_mass || speaks_of_dummy(facts.name) || speaks_of_dummy(facts.changed);
}

std::optional<double> mean_of_blocks(const Session& session, const std::string& setup, const Measure& measure) {
  return stats::mean(stats::block_means(values_of(session, setup, measure)));
}

/// -1: the second has less, 1: more, 0: not told.
int told(const NumberDifference& row) {
  if (!row.difference || !claims_difference(row.verdict)) return 0;
  return row.at_least.value_or(row.difference->difference) < 0.0 ? -1 : 1;
}

}  // namespace

std::vector<Control> equal_mass_controls(const Session& session, const std::string& baseline) {
  std::vector<Control> controls;
  const auto setups = session.setups();
  const auto added = [&](const std::string& setup) {
    const auto* facts = session.facts_of(setup);
    return facts ? facts->added_mass_kg : std::nullopt;
  };
  const double base_kg = added(baseline).value_or(0.0);
  for (const std::string& setup : setups) {
    const auto own_kg = added(setup);
    if (setup == baseline || !own_kg || std::abs(*own_kg - base_kg) <= kSameMassAs_kg || only_adds_mass(*session.facts_of(setup))) continue;
    const std::string* best = nullptr;
    double apart = std::numeric_limits<double>::infinity();
    for (const std::string& other : setups) {
      const auto other_kg = added(other);
      if (other == baseline || other == setup || !other_kg || !only_adds_mass(*session.facts_of(other))) continue;
      const double off = std::abs(*other_kg - *own_kg);
      if (off > std::max(kSameMassAs_kg, kSameMassShare * *own_kg) || off >= apart) continue;
      best = &other;
      apart = off;
    }
    if (best) controls.push_back({setup, *best});
  }
  return controls;
}

Ranking ranking_of(const Session& session, const std::vector<std::string>& setups, const Measure& measure) {
  Ranking ranking;
  ranking.number = measure.id;
  ranking.setups = setups;
  std::vector<double> p;
  std::vector<std::size_t> judged;
  std::vector<std::pair<std::size_t, std::size_t>> who;
  for (std::size_t i = 0; i < setups.size(); ++i) {
    for (std::size_t j = i + 1; j < setups.size(); ++j) {
      ranking.pairs.push_back(difference_of(session, setups[i], setups[j], measure));
      who.emplace_back(i, j);
      if (!ranking.pairs.back().difference) continue;
      p.push_back(ranking.pairs.back().difference->p);
      judged.push_back(ranking.pairs.size() - 1);
    }
  }
  const auto adjusted = stats::holm_adjusted(p);
  for (std::size_t k = 0; k < judged.size(); ++k) {
    NumberDifference& pair = ranking.pairs[judged[k]];
    pair.adjusted_p = adjusted[k];
    if (claims_difference(pair.verdict) && adjusted[k] >= kPairAlpha) pair.verdict = Verdict::hint;
  }
  for (const std::string& setup : setups) ranking.places.push_back({setup, mean_of_blocks(session, setup, measure), 1, {}});
  for (std::size_t k = 0; k < ranking.pairs.size(); ++k) {
    Placed& first = ranking.places[who[k].first];
    Placed& second = ranking.places[who[k].second];
    const int less = told(ranking.pairs[k]);
    if (less < 0) ++first.place;
    if (less > 0) ++second.place;
    if (less != 0 || !ranking.pairs[k].difference) continue;
    first.tied_with.push_back(second.setup);
    second.tied_with.push_back(first.setup);
  }
  for (Placed& placed : ranking.places) {
    if (!placed.mean && placed.tied_with.empty()) placed.place = setups.size();
  }
  std::ranges::stable_sort(ranking.places, {}, [](const Placed& placed) {
    return std::pair(placed.place, placed.mean.value_or(std::numeric_limits<double>::infinity()));
  });
  return ranking;
}

}  // namespace ringfall::compare
