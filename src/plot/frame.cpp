// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/frame.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ringfall::plot {
namespace {

constexpr double kFarOutside_pt = 1e4;

}  // namespace

double AxisMap::to_page(double data) const {
  const bool has_place = std::isfinite(data) && (scale == Scale::linear || data > 0.0);
  if (!has_place) return std::numeric_limits<double>::quiet_NaN();
  const double part = scale == Scale::linear ? (data - low) / (high - low)
                                             : std::log(data / low) / std::log(high / low);
  const double page = from_pt + part * (to_pt - from_pt);
  return std::clamp(page, std::min(from_pt, to_pt) - kFarOutside_pt,
                    std::max(from_pt, to_pt) + kFarOutside_pt);
}

double AxisMap::to_data(double page_pt) const {
  const double part = (page_pt - from_pt) / (to_pt - from_pt);
  if (scale == Scale::linear) return low + part * (high - low);
  return low * std::exp(part * std::log(high / low));
}

}  // namespace ringfall::plot
