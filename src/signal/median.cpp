// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/median.h"

#include <algorithm>

#include "base/check.h"

namespace ringfall::signal {

double upper_median(std::vector<double> values) { return upper_median_in_place(values); }

double upper_median_in_place(std::vector<double>& values) {
  check(!values.empty(), "a median is of something");
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace ringfall::signal
