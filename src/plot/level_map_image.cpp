// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/level_map_image.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "base/check.h"

namespace ringfall::plot {
namespace {

constexpr double kPixelsPerPt = 2.0;

/// The cells first .. last (inclusive) that one pixel covers.
struct Cells {
  std::size_t first = 0;
  std::size_t last = 0;
};

/// For pixels from `from_pt` to `to_pt` the cells of `count` between low and high.
std::vector<Cells> cells_of_pixels(const AxisMap& axis, double from_pt, double to_pt, double low, double high,
                                   std::size_t count) {
  const auto pixels = std::max<std::size_t>(1, static_cast<std::size_t>(std::lround(std::abs(to_pt - from_pt) * kPixelsPerPt)));
  const double cell = (high - low) / static_cast<double>(count);
  const auto cell_number = [&](double data) {
    return static_cast<std::size_t>(std::clamp((data - low) / cell, 0.0, static_cast<double>(count - 1)));
  };
  std::vector<Cells> result;
  for (std::size_t p = 0; p < pixels; ++p) {
    const double step = (to_pt - from_pt) / static_cast<double>(pixels);
    const double begin = axis.to_data(from_pt + step * static_cast<double>(p));
    const double end = axis.to_data(from_pt + step * static_cast<double>(p + 1));
    // A cell that the pixel only touches with its edge is not covered.
    const double edge = 1e-6 * (end - begin);
    const std::size_t first = cell_number(std::min(begin, end) + std::abs(edge));
    result.push_back({first, std::max(first, cell_number(std::max(begin, end) - std::abs(edge)))});
  }
  return result;
}

double highest(const LevelMap& map, const Cells& rows, const Cells& columns) {
  double level = std::numeric_limits<double>::quiet_NaN();
  for (std::size_t r = rows.first; r <= rows.last; ++r) {
    for (std::size_t c = columns.first; c <= columns.last; ++c) {
      const double candidate = map.levels[r * map.columns + c];
      if (!(level >= candidate) && !std::isnan(candidate)) level = candidate;
    }
  }
  return level;
}

}  // namespace

std::uint8_t level_step(double level, double low, double high) {
  if (std::isnan(level)) return 0;
  const double part = std::clamp((level - low) / (high - low), 0.0, 1.0);
  return static_cast<std::uint8_t>(1 + std::lround(254.0 * part));
}

std::optional<Image> level_map_image(const LevelMap& map, const Frame& frame) {
  check(map.levels.size() == map.columns * map.rows, "a level map has columns times rows levels");
  check(map.low < map.high && map.x_low < map.x_high && map.y_low < map.y_high, "a level map has its ranges");
  if (map.levels.empty()) return std::nullopt;
  // On a logarithmic axis a map that begins at zero begins at the frame.
  const auto start = [](const AxisMap& axis, double low) { return std::max(axis.low, low); };
  const double left = frame.x.to_page(start(frame.x, map.x_low));
  const double right = frame.x.to_page(std::min(frame.x.high, map.x_high));
  const double bottom = frame.y.to_page(start(frame.y, map.y_low));
  const double top = frame.y.to_page(std::min(frame.y.high, map.y_high));
  if (!(right > left) || !(bottom > top)) return std::nullopt;
  const auto columns = cells_of_pixels(frame.x, left, right, map.x_low, map.x_high, map.columns);
  const auto rows = cells_of_pixels(frame.y, top, bottom, map.y_low, map.y_high, map.rows);
  Image image{{left, top, right, bottom}, columns.size(), rows.size(), {}};
  image.steps.reserve(columns.size() * rows.size());
  for (const Cells& row : rows) {
    for (const Cells& column : columns) image.steps.push_back(level_step(highest(map, row, column), map.low, map.high));
  }
  return image;
}

}  // namespace ringfall::plot
