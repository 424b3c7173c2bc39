// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plot/ink.h"

namespace ringfall::plot {

/// Measures of colours for tests, written apart from the code under test.

/// CIE 1976 lightness L* of an sRGB colour (IEC 61966-2-1, CIE 15), 0 .. 100.
double lightness(Colour colour);

/// CIE 1976 colour difference.
double colour_difference(Colour a, Colour b);

enum class Vision { all, no_l_cone, no_m_cone };

/// The colour as eyes without one kind of cone see it: Machado, Oliveira and Fernandes 2009, "A
/// physiologically-based model for simulation of color vision deficiency", table of matrices, severity 1.0
/// (matrices from memory; their rows add up to 1, as they must for grey to stay grey).
Colour seen_with(Vision vision, Colour colour);

}  // namespace ringfall::plot
