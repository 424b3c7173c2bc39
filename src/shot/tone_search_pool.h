// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/tone_search.h"
#include "shot/tone_search_fit.h"

namespace ringfall::shot {

/// The candidates described over all shots of the view. One shot: its fits. Several: the mean level, ring time and frequency
/// of the shots in which the fit succeeds; where it fails in most of them, frequency, level and fall from gate to gate of
/// the pooled spectrum itself. Ascending in frequency.
std::vector<FittedTone> pooled_fits(const BandView& view, std::span<const Candidate> candidates,
                                    std::span<const TailSound::Steady> steady);

}  // namespace ringfall::shot
