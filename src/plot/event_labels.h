// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "plot/canvas.h"

namespace ringfall::plot {

/// Rules across x (loud edge, tail, hits): each label stands beside the head of its line above the frame.
struct EventLabel {
  /// Index into the panel's series.
  std::size_t series = 0;
  double x_pt = 0.0;
  std::string words{};
  /// 0 is next to the frame; the line reaches up to its row. No row: the label found no room.
  std::optional<std::size_t> row{};
  bool left_of_line = false;
};

/// Height of a row of event labels.
inline constexpr double kEventRow_pt = 10.5;

/// Places the labels of a panel so that none hits another, nor another's line. Looks at frame.x only.
/// Rules outside the frame's range are left out. Tests: EventLabelsTest.
std::vector<EventLabel> place_event_labels(const Panel& panel, const Frame& frame, const Measure& measure);

/// Rows that these labels need.
std::size_t event_rows(const std::vector<EventLabel>& labels);

/// The lines over the frame and the words above it.
void add_event_marks(Canvas& canvas, const std::vector<EventLabel>& labels);

}  // namespace ringfall::plot
