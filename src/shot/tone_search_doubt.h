// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/tone_search.h"
#include "shot/tone_search_fit.h"

namespace ringfall::shot {

/// Tones that may stand behind what the search refused: lines that passed the spectrum's test but failed the second look,
/// the fit or the noise's ring time, and lines that missed the threshold by less than re-coding the sound moves them
/// (`hysteresis_db`). Each as strong and as long as its gates allow; nothing within a main lobe of an accepted tone (`tones`)
/// and nothing that does not fall. Such a line is neither a tone nor proof of silence.
/// Source: own, docs/measures/hum_ping.md.  Tests: tone_doubt_test.cpp.  Cost: the peak search once more.
std::vector<FittedTone> doubtful_lines(const BandView& view, std::span<const TailSound::Steady> steady,
                                       std::span<const FittedTone> tones, double hysteresis_db);

}  // namespace ringfall::shot
