// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "compare/comparison.h"

namespace ringfall::report {

/// The answer in an archer's words, once for terminal, page and window: no term of statistics in it. Words and their limits:
/// docs/measures/report.md#words. Tests: report.AnswerWords.*

/// A hum or ping score (0 .. 10) in a word: under 1 "none", under 3 "slight", under 6 "plain", under 8 "strong", else "very ringing".
const char* score_word(double points);

/// "Much less hum (7.2 -> 5.1, strong -> plain)", "Perhaps quieter, not sure (-1.2 +- 1.0 dB)", "Ping about the same (4.0 -> 3.9, plain)".
std::string statement_text(const compare::Statement& said);

/// Quieter, hum, ping and the number asked for: one sentence each, in this order.
std::string answer_text(const compare::Answer& answer);

/// Who is shown to be quieter, to hum and to ping less, and who more: "Loudness: no difference shown. Hum: less with 'cuff'. Ping: more with 'cuff'."
std::string headline(const compare::Comparison& comparison);

/// Of a set-up: those that changed besides, "late ring-down, Z 0.193 -> 0.098 s"; empty: nothing else is claimed.
std::vector<std::string> else_texts(const compare::Answer& answer);

/// What the answers rest on: blocks, shots, whose blocks tell how much blocks wander. One sentence or two.
std::string sureness_text(const compare::Comparison& comparison);

/// The steps that would settle most, none twice.
std::vector<std::string> next_texts(const compare::Comparison& comparison);

/// "Hum, least first: 1 felt cuff 5.1; 2 bare 7.2, clay ring 7.2." Set-ups of one place, and those not told from each other, are joined.
std::string ranking_text(const compare::Ranking& ranking);

/// Whether ratings rank the set-ups as the numbers do, a sentence each that says something: "felt cuff: less hum was said and measured.",
/// "felt cuff: less ping was said, more measured."
std::vector<std::string> rating_texts(const compare::Session& session, const std::string& baseline);

/// The cautions and what was left out: what an answer's reader must know. The rest of the findings are notes.
std::vector<std::string> doubt_texts(const compare::Comparison& comparison);

/// "Which is quieter and deader?", or of the one number that was asked for.
std::string asked(const compare::Comparison& comparison);

}  // namespace ringfall::report
