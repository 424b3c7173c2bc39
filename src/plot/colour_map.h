// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

#include "plot/ink.h"

namespace ringfall::plot {

/// The ramp of levels: step 0 is the theme's paper ("nothing here"), 1 the lowest .. 255 the highest level.
/// On light paper a louder level is darker, on dark lighter. CIE 1976 lightness runs in equal steps, so that
/// the ramp is ordered in grey print and for colour-blind eyes; the hue (sea green over petrol to indigo) only
/// helps. Source: own, docs/drawing.md#levels-as-colours. Tests: ColourMapTest.
Colour level_colour(std::uint8_t step, Theme theme);

}  // namespace ringfall::plot
