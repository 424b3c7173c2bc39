// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/session.h"
#include "compare/words_against_numbers.h"

namespace ringfall::report {

/// A rating against a number (compare::RatingAgreement), with the sentence for it.
struct Agreement : compare::RatingAgreement {
  std::string sentence;  ///< "not settled" whenever the interval holds 0; the n it would take
};

/// One a pair of compare::rating_agreements. Definition: docs/measures/comparison.md#words. Tests: report.Agreement.*
std::vector<Agreement> agreements(const compare::Session& session, const std::string& main_number = "");

/// "'dead' (hum): hum 2.1, middle 4.4: agrees".
std::string word_check_text(const compare::WordCheck& check);

/// Shot by shot what words say and numbers say: a line a disagreement, with its numbers; then a line an aspect and outcome with all
/// its shots. Sentences. Tests: report.Agreement.*
std::vector<std::string> word_check_lines(const std::vector<compare::WordCheck>& checks);

}  // namespace ringfall::report
