// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/tone_change.h"

namespace ringfall::report {

/// The words for what became of the tones, once for all faces. Tests: report.ToneChange.*
using compare::SetUpTone;
using compare::ToneChange;
using compare::ToneMatch;

/// Which part of the sound changed most and by how much, in level and ring time; which tones came and went. Empty without tones.
std::string tone_sentence(const std::vector<ToneChange>& changes, const std::string& setup, const std::string& baseline);

/// "same tone", "perhaps the same, moved by -4.2 %", "only with the baseline", "only with this set-up".
std::string match_words(const ToneChange& change);

/// "hum", "between", "ping".
std::string family_word(shot::ToneFamily family);

}  // namespace ringfall::report
