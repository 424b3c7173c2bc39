// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace ringfall::stats::published {

/// Student 1908, hours of sleep gained with two drugs by the same ten patients.
inline const std::vector<double> sleep_first{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
inline const std::vector<double> sleep_second{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};

/// Survival of mice in days (Efron & Tibshirani 1993, Table 2.1; from memory).
inline const std::vector<double> mice_treated{94, 197, 16, 38, 99, 141, 23};
inline const std::vector<double> mice_control{52, 104, 146, 10, 51, 30, 40, 27, 46};

}  // namespace ringfall::stats::published
