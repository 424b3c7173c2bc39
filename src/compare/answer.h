// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/number_difference.h"
#include "compare/session.h"

namespace ringfall::compare {

/// The answer as plain data, for every face to say in its own words. One Answer for each set-up against the baseline, and one more for each
/// set-up that has a control of equal mass, against that: the fair test. In order: quieter? hum? ping? what else changed? how sure? what next?
/// Definition: docs/measures/comparison.md#answer. Tests: compare.Answer.*

/// Which way a number went.
enum class Change {
  less,          ///< claimed: the verdict says that they differ
  more,
  same,          ///< at most a small difference
  open,          ///< not settled
  leaning_less,  ///< not claimed: a hint, or one block each without a known wander
  leaning_more,
  no_number      ///< nothing to compare; `why_not` says why
};

/// How sure, in one word.
enum class Sureness {
  clear,      ///< Verdict::clear
  sure,       ///< the interval excludes 0 (or holds no more than a small difference), blocks repeated or their wander known
  one_block,  ///< as sure, but a set-up has one block: the bow's other blocks tell how much blocks wander
  hint,       ///< may be chance among so many
  assumed,    ///< one block each, the wander assumed: no claim
  open        ///< not settled, or no number
};

/// What is said of one number.
struct Statement {
  std::string number;  ///< id: "exposure_db"
  std::string label;
  std::string unit;
  int decimals = 1;
  Change change = Change::no_number;
  Sureness sureness = Sureness::open;
  Verdict verdict = Verdict::not_settled;
  std::optional<double> from;             ///< mean of what it is held against
  std::optional<double> to;               ///< mean of the set-up
  bool from_at_most = false;              ///< `from` is a bound: a ring may hide in its shots; it lies between 0 and this
  bool to_at_most = false;
  std::optional<double> difference;       ///< to less from (with bounds: the middle of what it can be)
  std::optional<double> at_least;         ///< with bounds: it is this much at least (signed)
  std::optional<stats::Interval> interval;  ///< 95 %
  double df = 0.0;
  double adjusted_p = 1.0;
  SpreadFrom spread_from = SpreadFrom::assumed;  ///< whose blocks say how much blocks wander
  std::size_t from_blocks = 0;
  std::size_t to_blocks = 0;
  std::optional<std::size_t> blocks_to_settle;   ///< of each set-up
  std::string instead_of;                 ///< id of the number that can't be told, of which this is the coarser stand-in ("hum")
  std::string why_not;                    ///< for Change::no_number
};

/// The one step that would settle most.
enum class NextStep {
  nothing,        ///< all three are settled
  once_more,      ///< record both once more in the reverse order: B A after A B
  more_blocks,    ///< as many blocks more as `blocks` says
  bring_control,  ///< shoot a dummy of equal mass as well
  one_session,    ///< shoot both in one session
  same_chain,     ///< record all with one device, gain and format: something of the chain differs between the set-ups
  too_many        ///< no number of blocks within reason: it is small if it is there
};

struct Answer {
  std::string setup;
  std::string against;
  bool against_control = false;    ///< a dummy of equal mass, not the baseline
  Statement loudness;              ///< quieter? exposure_db; of a foreign table the main number, hum and ping then have no number
  Statement hum;                   ///< hum, or hum_tail_db where hum can't be told
  Statement ping;
  std::optional<Statement> main;   ///< the number that was asked for, when it is none of those
  std::vector<Statement> others;   ///< what else is claimed to differ, the largest t first; leads and checks left out
  std::vector<std::string> doubts; ///< codes of the cautions in Comparison::findings
  NextStep next = NextStep::nothing;
  std::size_t blocks = 0;          ///< for more_blocks: beyond those there are, of each
};

/// A set-up in a ranking.
struct Placed {
  std::string setup;
  std::optional<double> mean;  ///< over its blocks; sessions as they are
  std::size_t place = 1;       ///< 1 is the least; 1 + how many are claimed to have less
  std::vector<std::string> tied_with;  ///< those that it is not told from
};

/// Every set-up against every other by one number, Holm over all pairs.
struct Ranking {
  std::string number;
  std::vector<NumberDifference> pairs;  ///< of setups[i], setups[j], i < j, row by row; second less first
  std::vector<std::string> setups;      ///< the baseline first
  std::vector<Placed> places;           ///< least first
};

/// A set-up of equal mass that adds mass and nothing else: what it changes is mass, not damping.
struct Control {
  std::string setup;
  std::string control;
};

/// For each set-up that weighs 5 g or more over the baseline: the other set-up whose added mass is within 5 g or 5 % of its own and that adds
/// mass only (SetUpFacts::only_mass, or a name or a description with "dummy", "equal mass", "same mass", "mass only", "dead weight").
std::vector<Control> equal_mass_controls(const Session& session, const std::string& baseline);

/// Without a value for a pair it is not told. Of set-ups without a value `mean` is nullopt and the place is the last.
Ranking ranking_of(const Session& session, const std::vector<std::string>& setups, const Measure& measure);

/// `numbers`: judged, of `setup` against `against`.
Answer answer_of(const std::string& setup, const std::string& against, const std::vector<NumberDifference>& numbers,
                 const std::string& main_number);

}  // namespace ringfall::compare
