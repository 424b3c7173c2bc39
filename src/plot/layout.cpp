// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <span>

#include "base/check.h"
#include "plot/axis_range.h"
#include "plot/panel_layout.h"
#include "plot/text_fit.h"
#include "plot/text_width.h"

namespace ringfall::plot {
namespace {

constexpr double kMargin_pt = 14.0;
constexpr double kBetweenColumns_pt = 22.0;
constexpr double kBetweenRows_pt = 12.0;
constexpr double kUnderTitle_pt = 8.0;
constexpr double kAboveCaption_pt = 8.0;
/// A frame is never lower than this, whatever height the figure asks for.
constexpr double kLeastFrame_pt = 12.0;

/// Lines of text from `top` down; returns where they end.
double add_lines(Picture& picture, const std::vector<std::string>& lines, double top, double size_pt, Ink ink) {
  for (const std::string& line : lines) {
    picture.marks.push_back(Text{{kMargin_pt, top + kCapHeight * size_pt}, line, size_pt, ink, Anchor::start});
    top += kLineSpacing * size_pt;
  }
  return top;
}

/// The grid of panels: rows of `columns`, the room of each, the frames in line with one another.
class Grid {
 public:
  Grid(const Figure& figure, const Rect& room, const Measure& measure)
      : figure_(figure), room_(room), measure_(measure), columns_(std::min(figure.columns, figure.panels.size())) {
    for (std::size_t i = 0; i < figure.panels.size(); ++i) plans_.push_back(start_plan(i));
    set_heights();
    for (std::size_t i = 0; i < plans_.size(); ++i) plan_sides(plans_[i], cell_width(), heights_[row_of(i)], measure_);
    for (std::size_t i = 0; i < plans_.size(); ++i) plan_align_sides(i);
    for (PanelPlan& plan : plans_) plan_head_and_foot(plan, cell_width(), measure_);
    set_heights();
  }

  void add_to(LaidOut& result) const {
    for (std::size_t i = 0; i < plans_.size(); ++i) {
      const Rect place = place_of(i);
      const PanelPlan& plan = plans_[i];
      const Rect cell{place.left - plan.left_pt, place.top - plan.head_pt, place.right + plan.right_pt,
                      place.bottom + plan.foot_pt};
      Canvas canvas = panel_marks(plan, cell, place, measure_);
      result.frames.push_back(canvas.frame);
      std::ranges::move(canvas.marks, std::back_inserter(result.picture.marks));
      if (canvas.not_drawn > 0) result.findings.push_back(not_drawn(*plan.panel, canvas.not_drawn));
    }
  }

 private:
  std::size_t row_of(std::size_t i) const { return i / columns_; }
  std::size_t column_of(std::size_t i) const { return i % columns_; }
  std::size_t rows() const { return (plans_.size() + columns_ - 1) / columns_; }

  double cell_width() const {
    const auto n = static_cast<double>(columns_);
    return (room_.width() - (n - 1.0) * kBetweenColumns_pt) / n;
  }

  PanelPlan start_plan(std::size_t i) const {
    const Panel& panel = figure_.panels[i];
    const Panel* alone = &panel;
    std::vector<const Panel*> sharing{alone};
    PanelPlan plan;
    if (figure_.shared_x) {
      sharing.clear();
      for (std::size_t k = column_of(i); k < figure_.panels.size(); k += columns_) sharing.push_back(&figure_.panels[k]);
      plan.x_words = i + columns_ >= figure_.panels.size();
    }
    plan.panel = &panel;
    plan.x_range = axis_range(sharing, Along::x);
    plan.y_range = axis_range(std::span(&alone, 1), Along::y);
    plan.x_known = axis_known(sharing, Along::x);
    plan.y_known = axis_known(std::span(&alone, 1), Along::y);
    return plan;
  }

  /// Frames of one column begin and end together.
  void plan_align_sides(std::size_t i) {
    for (std::size_t k = column_of(i); k < plans_.size(); k += columns_) {
      plans_[i].left_pt = std::max(plans_[i].left_pt, plans_[k].left_pt);
      plans_[i].right_pt = std::max(plans_[i].right_pt, plans_[k].right_pt);
    }
  }

  double most_of_row(std::size_t row, double PanelPlan::*part) const {
    double most = 0.0;
    for (std::size_t i = row * columns_; i < std::min(plans_.size(), (row + 1) * columns_); ++i) {
      most = std::max(most, plans_[i].*part);
    }
    return most;
  }

  /// Heights of the frames, row by row: what heads and feet leave, by shares.
  void set_heights() {
    double free = room_.height() - kBetweenRows_pt * static_cast<double>(rows() - 1);
    double shares = 0.0;
    std::vector<double> share(rows(), 0.0);
    for (std::size_t row = 0; row < rows(); ++row) {
      free -= most_of_row(row, &PanelPlan::head_pt) + most_of_row(row, &PanelPlan::foot_pt);
      for (std::size_t i = row * columns_; i < std::min(plans_.size(), (row + 1) * columns_); ++i) {
        check(plans_[i].panel->height_share > 0.0, "a panel has a share of the height");
        share[row] = std::max(share[row], plans_[i].panel->height_share);
      }
      shares += share[row];
    }
    heights_.clear();
    for (const double part : share) heights_.push_back(std::max(kLeastFrame_pt, free * part / shares));
  }

  Rect place_of(std::size_t i) const {
    double top = room_.top;
    for (std::size_t row = 0; row < row_of(i); ++row) {
      top += most_of_row(row, &PanelPlan::head_pt) + heights_[row] + most_of_row(row, &PanelPlan::foot_pt) + kBetweenRows_pt;
    }
    top += most_of_row(row_of(i), &PanelPlan::head_pt);
    const double left = room_.left + static_cast<double>(column_of(i)) * (cell_width() + kBetweenColumns_pt);
    return {left + plans_[i].left_pt, top, left + cell_width() - plans_[i].right_pt, top + heights_[row_of(i)]};
  }

  static Finding not_drawn(const Panel& panel, std::size_t count) {
    const std::string& name = panel.title.empty() ? panel.y.quantity : panel.title;
    return {"values_not_drawn", Severity::note, {},
            fmt::format("{}: {} value{} not finite, or not above zero on a logarithmic axis, and left out of the figure.",
                        name.empty() ? "A panel" : name, count, count == 1 ? " is" : "s are")};
  }

  const Figure& figure_;
  Rect room_;
  const Measure& measure_;
  std::size_t columns_;
  std::vector<PanelPlan> plans_;
  std::vector<double> heights_;
};

}  // namespace

LaidOut layout(const Figure& figure, const Measure& measure) {
  check(figure.columns > 0, "a figure has a column");
  check(figure.width_pt > 4.0 * kMargin_pt && figure.height_pt > 4.0 * kMargin_pt, "a figure has a size");
  LaidOut result;
  Picture& picture = result.picture;
  picture.width_pt = figure.width_pt;
  picture.height_pt = figure.height_pt;
  const double width = figure.width_pt - 2.0 * kMargin_pt;
  Rect room{kMargin_pt, kMargin_pt, figure.width_pt - kMargin_pt, figure.height_pt - kMargin_pt};
  const auto title = wrapped(figure.title, width, kFigureTitle_pt, 2, measure);
  if (!title.empty()) room.top = add_lines(picture, title, room.top, kFigureTitle_pt, Ink::text) + kUnderTitle_pt;
  const auto caption = wrapped(figure.caption, width, kLabel_pt, 6, measure);
  if (!caption.empty()) {
    room.bottom -= kLineSpacing * kLabel_pt * static_cast<double>(caption.size());
    add_lines(picture, caption, room.bottom, kLabel_pt, Ink::muted);
    room.bottom -= kAboveCaption_pt;
  }
  if (!figure.panels.empty()) Grid(figure, room, measure).add_to(result);
  return result;
}

LaidOut layout(const Figure& figure) { return layout(figure, text_width); }

}  // namespace ringfall::plot
