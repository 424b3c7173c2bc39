// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "base/finding.h"
#include "shot/clip.h"

namespace ringfall::shot {

/// Faults of the recording chain that the samples of one clip show by themselves: `clipped`, `dropout`,
/// `dc_offset`, `noise_gate`, `coarse_steps`, `starts_inside_shot`. Definitions and the figures found on clean and faulty signals: docs/measures/chain.md.
/// Source: own; what each fault looks like is common practice, no source. Tested: shot.ClipFaults.*
std::vector<Finding> clip_faults(const Clip& clip);

/// Flat tops with corners: runs of >= 3 samples at one value where the wave arrives with a step that no smooth
/// crest of that flatness could have. Looks at the loudest part, `begin` .. `end` (sample indices in the clip).
/// A normalised full-scale peak is not clipping, and a plateau below full scale is.
bool has_flat_tops(const std::vector<float>& samples, std::size_t begin, std::size_t end);

/// Mean of the samples before the edge (all samples when there are none), to be taken off before measuring.
double dc_of(const Clip& clip);

}  // namespace ringfall::shot
