// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace ringfall::signal {

/// The middle value, of an even number the upper of the two. values: not empty, no NaN. Cost: linear.
/// Tests: median_test.cpp, by hand.
double upper_median(std::vector<double> values);

/// The same where the caller's order may be lost.
double upper_median_in_place(std::vector<double>& values);

}  // namespace ringfall::signal
