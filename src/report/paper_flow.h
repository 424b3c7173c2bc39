// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "plot/picture.h"

namespace ringfall::report {

/// Sheets of A4, filled from the top: text and pictures are put where the last ended, and a new sheet begins when what comes
/// next does not fit. Lengths in points.
class PaperFlow {
 public:
  static constexpr double kSheetWidth_pt = 595.28;
  static constexpr double kSheetHeight_pt = 841.89;
  static constexpr double kMargin_pt = 45.0;
  static constexpr double kWidth_pt = kSheetWidth_pt - 2.0 * kMargin_pt;
  /// Room for the foot of the sheet.
  static constexpr double kFoot_pt = 14.0;
  static constexpr double kHeight_pt = kSheetHeight_pt - 2.0 * kMargin_pt - kFoot_pt;

  PaperFlow() { new_sheet(); }

  double room_pt() const;
  void new_sheet();
  /// Begins a new sheet unless `height_pt` fits on this one; what is higher than a sheet stays where it is.
  void need(double height_pt);
  /// Space between two things; none at the top of a sheet.
  void skip(double height_pt);
  void advance(double height_pt) { y_pt_ += height_pt; }

  /// Wrapped text over the width from `indent_pt` on, broken between lines where a sheet ends.
  void text(const std::string& words, double size_pt, plot::Ink ink = plot::Ink::text, double indent_pt = 0.0);
  /// One line of text at the cursor plus `down_pt`, not moving the cursor.
  void line(const std::string& words, double x_pt, double down_pt, double size_pt, plot::Ink ink, plot::Anchor anchor);
  void rule(double from_pt, double to_pt, double width_pt, plot::Ink ink);
  /// A picture scaled with its upper left corner at the cursor plus (x, down), not moving the cursor.
  void picture(const plot::Picture& picture, double x_pt, double down_pt, double scale);

  /// The sheets, each with the title and its number at the foot.
  std::vector<plot::Picture> finished(const std::string& title) &&;

 private:
  std::vector<plot::Picture> sheets_;
  double y_pt_ = kMargin_pt;
};

}  // namespace ringfall::report
