// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "compare/measure.h"
#include "compare/session.h"
#include "compare/word_list.h"
#include "stats/blocked_rank.h"

namespace ringfall::compare {

/// Do the archer's ratings put the shots into the order that a number puts them into?
struct RatingAgreement {
  std::string rating;                     ///< "hum", "ping", "loud", "feel"
  std::shared_ptr<const Measure> number;  ///< what it is held against; never null
  bool opposite_expected = false;         ///< a better feel goes with less hum
  bool direction_known = true;            ///< false: nobody says whether this rating should rise or fall with this number
  std::vector<std::string> setups;        ///< of each pair
  std::vector<std::size_t> block_of;      ///< of each pair: which of the session's kept blocks
  std::vector<int> session_of;            ///< of each pair
  std::vector<double> said;
  std::vector<double> measured;
  std::size_t blocks = 0;  ///< of the pairs: whole blocks
  std::size_t blind = 0;   ///< of the pairs: said before the numbers could be seen
  std::optional<stats::RankAgreement> rank;      ///< Kendall's tau-b over shots in blocks; nullopt: under three pairs, or no spread
  std::optional<stats::RankAgreement> spearman;  ///< the same pairs
  double effective_pairs = 0.0;                  ///< what they tell as much as, since shots of one block share its luck
  std::size_t setup_count = 0;                   ///< set-ups with both
  std::optional<stats::RankAgreement> over_setups;  ///< tau-b of the set-ups' means: what differs is the set-up
  /// Pairs, in blocks as these, that would find a true Spearman coefficient of this size with 80 %, more than there are; nullopt: it is
  /// significant, or none would do.
  std::optional<std::size_t> pairs_needed;
};

/// Where there are several sessions each list is taken from its session's mean, since another day lifts or lowers all of it; one with a
/// single pair tells nothing then.
/// What is said of a block as a whole, in which no shot has a rating of its own of that kind, is one pair with the mean of its shots.
/// Hum rating against hum, ping against ping, loud against loudness, feel against hum, over all shots that have both. In a foreign table a
/// rating is held against the columns whose name has its own as a word, else against `main_number`. Pairs of which no shot has both are left
/// out. Definition: docs/measures/comparison.md#words. Tests: compare.Words.*
std::vector<RatingAgreement> rating_agreements(const Session& session, const std::string& main_number);

/// How a shot's words stand to its number.
enum class WordOutcome {
  agrees,
  disagrees,
  between,     ///< the number lies too near the middle to say
  no_number    ///< nothing measured speaks of it
};

/// One thing said of one shot.
struct WordCheck {
  std::string setup;
  std::string file;
  int number = 0;  ///< in its recording; 0: said of the whole block
  std::int64_t id = 0;
  WordSaid said;
  std::optional<double> value;   ///< of aspect_number
  std::optional<double> middle;  ///< median of that number over all kept shots
  WordOutcome outcome = WordOutcome::no_number;
};

/// Holds every word that is on the list against the shot's own number (a block's: the mean of its shots): "much" agrees with a value above the median of all kept shots,
/// "little" with one below; within what is noticeable (without that, a quarter of the standard deviation) it is between.
/// Never overrules a number. Tests: compare.Words.*
std::vector<WordCheck> word_checks(const Session& session);

}  // namespace ringfall::compare
