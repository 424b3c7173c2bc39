// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "compare/comparison.h"

namespace ringfall::report {

/// The words for a comparison, once for terminal, page and files. Tests: report.Sentences.*

/// "+1.2", "-0.3", "0.0" (never "-0.0"). `decimals` 0..6.
std::string signed_number(double value, int decimals);

/// "+0.4 to +1.9"; with more decimals when an interval that excludes 0 would read as holding it.
std::string interval_text(const stats::Interval& interval, int decimals);

/// "0.013", "<0.001".
std::string p_text(double p);

/// "block", "blocks".
std::string block_word(std::size_t count);

/// "2 blocks": those of a set-up with a value.
std::string blocks_text(const compare::Spread& spread);

/// What is said of a set-up's main number: what, how much, how sure, what would settle it; and when drift can't be told from it.
std::string main_sentence(const compare::SetUpComparison& against, const std::string& baseline);

/// Early against late ring-down, A-weighted and unweighted: says so when a set-up dies faster but lasts longer (or the
/// reverse); of a part whose interval holds 0 it is not settled whether it changed, one that only its own p carries is a hint. Empty
/// when neither part is known.
std::vector<std::string> ring_down_sentences(const compare::SetUpComparison& against, const std::string& baseline);

/// Order, drift, permutation, a stated difference, what was left out, and what wild shots do, of a set-up's main number; those that
/// there is something to say of.
std::vector<std::string> care_sentences(const compare::Comparison& comparison, const compare::SetUpComparison& against);

/// With a stated difference (Comparison::wanted_difference): how many blocks would find it.
std::string wanted_sentence(const compare::Comparison& comparison, const compare::SetUpComparison& against);

/// The question the page answers: "Hum: do 'a' and 'b' differ from 'c'?"
std::string question(const compare::Comparison& comparison);

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& words);

}  // namespace ringfall::report
