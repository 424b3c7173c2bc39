// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "plot/figure.h"

namespace ringfall::plot {

/// One figure of each kind, of invented data, the same every time: for golden tests and for looking at.
struct Example {
  std::string name;
  Figure figure;
};
std::vector<Example> example_figures();

}  // namespace ringfall::plot
