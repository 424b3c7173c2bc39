// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "plot/figure.h"
#include "plot/picture.h"

namespace ringfall::plot {

/// The step of the ramp of a level: 1 .. 255 over low .. high, held there; 0 for NaN.
std::uint8_t level_step(double level, double low, double high);

/// The part of a map that lies in the frame, at two pixels a point. A pixel shows the highest of the cells it
/// covers. nullopt when the map lies outside. Fails: check() on a matrix of the wrong size.
std::optional<Image> level_map_image(const LevelMap& map, const Frame& frame);

}  // namespace ringfall::plot
