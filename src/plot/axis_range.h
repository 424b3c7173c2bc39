// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

#include "plot/figure.h"
#include "plot/ticks.h"

namespace ringfall::plot {

/// Is there a value to draw at all (spans and rules alone are none)?
bool has_data(const Panel& panel);

/// Does anything say where the axis runs: data, a span or rule, given ends, categories?
bool axis_known(std::span<const Panel* const> panels, Along along);

/// The range of one axis over panels that share it: as the axis says, else what the series reach with some
/// air round points and whole steps along y; 0 .. 1 (1 .. 10 on a logarithmic axis) when there is nothing.
/// Always low < high, and above zero on a logarithmic axis.
Range axis_range(std::span<const Panel* const> panels, Along along);

}  // namespace ringfall::plot
