// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "plot/layout.h"

namespace ringfall::plot {

/// Sizes of type and the room a line of it takes, in points.
inline constexpr double kFigureTitle_pt = 13.0;
inline constexpr double kPanelTitle_pt = 10.0;
inline constexpr double kAxisTitle_pt = 8.5;
inline constexpr double kLabel_pt = 8.0;
inline constexpr double kLineSpacing = 1.35;
/// Height of capitals and depth of letters below the base line, of the size.
inline constexpr double kCapHeight = 0.73;
inline constexpr double kDescent = 0.24;

/// The text itself when it fits, else its beginning and an ellipsis; empty when not even that fits.
std::string shortened(std::string_view text, double width_pt, double size_pt, const Measure& measure);

/// The text broken at spaces into lines that fit; a word that is too long, and the last line when there are
/// more than `most_lines`, are shortened. No lines for an empty text.
std::vector<std::string> wrapped(std::string_view text, double width_pt, double size_pt, std::size_t most_lines,
                                 const Measure& measure);

}  // namespace ringfall::plot
