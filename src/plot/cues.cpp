// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/cues.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ringfall::plot {
namespace {

/// Regular polygon; the first corner at `first_turn` of a full turn, clockwise on the page from "up".
std::vector<Point> polygon(Point centre, double radius_pt, int corners, double first_turn) {
  std::vector<Point> outline;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2.0 * std::numbers::pi * (first_turn + static_cast<double>(i) / corners);
    outline.push_back({centre.x + radius_pt * std::sin(angle), centre.y - radius_pt * std::cos(angle)});
  }
  return outline;
}

std::vector<Point> cross(Point centre, double arm_pt, double half_pt) {
  // An upright plus turned by 45 degrees.
  const double corners[12][2] = {{-half_pt, -arm_pt}, {half_pt, -arm_pt},  {half_pt, -half_pt}, {arm_pt, -half_pt},
                                 {arm_pt, half_pt},   {half_pt, half_pt},  {half_pt, arm_pt},   {-half_pt, arm_pt},
                                 {-half_pt, half_pt}, {-arm_pt, half_pt},  {-arm_pt, -half_pt}, {-half_pt, -half_pt}};
  std::vector<Point> outline;
  for (const auto& corner : corners) {
    outline.push_back({centre.x + (corner[0] - corner[1]) * std::numbers::sqrt2 / 2.0,
                       centre.y + (corner[0] + corner[1]) * std::numbers::sqrt2 / 2.0});
  }
  return outline;
}

}  // namespace

std::vector<double> dash_lengths(Dash dash, double width_pt) {
  const double w = std::max(width_pt, 0.5);
  switch (dash) {
    case Dash::solid: return {};
    case Dash::dashed: return {4.5 * w, 2.2 * w};
    case Dash::dotted: return {1.2 * w, 1.8 * w};
    case Dash::dash_dot: return {5.0 * w, 1.8 * w, 1.2 * w, 1.8 * w};
  }
  return {};
}

const char* dash_name(Dash dash) {
  switch (dash) {
    case Dash::solid: return "solid";
    case Dash::dashed: return "dashed";
    case Dash::dotted: return "dotted";
    case Dash::dash_dot: return "dash_dot";
  }
  return "";
}

std::vector<Point> marker_outline(Marker marker, Point centre, double radius_pt) {
  switch (marker) {
    case Marker::dot: return polygon(centre, radius_pt, 16, 0.0);
    case Marker::square: return polygon(centre, 1.24 * radius_pt, 4, 0.125);
    case Marker::diamond: return polygon(centre, 1.28 * radius_pt, 4, 0.0);
    case Marker::triangle: return polygon(centre, 1.42 * radius_pt, 3, 0.0);
    case Marker::down_triangle: return polygon(centre, 1.42 * radius_pt, 3, 0.5);
    case Marker::cross: return cross(centre, 1.25 * radius_pt, 0.42 * radius_pt);
  }
  return {};
}

}  // namespace ringfall::plot
