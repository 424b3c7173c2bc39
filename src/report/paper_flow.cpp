// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/paper_flow.h"

#include <fmt/format.h>

#include <utility>

#include "plot/text_fit.h"
#include "plot/text_width.h"

namespace ringfall::report {
namespace {

plot::Mark moved(plot::Mark mark, double x, double y, double scale) {
  const auto point = [&](plot::Point& at) { at = {x + scale * at.x, y + scale * at.y}; };
  const auto points = [&](std::vector<plot::Point>& all) {
    for (auto& at : all) point(at);
  };
  const auto place = [&](plot::Rect& at) {
    at = {x + scale * at.left, y + scale * at.top, x + scale * at.right, y + scale * at.bottom};
  };
  std::visit(plot::Overloaded{
                 [&](plot::Polyline& line) {
                   points(line.points);
                   line.width_pt *= scale;
                 },
                 [&](plot::Filled& area) { points(area.outline); },
                 [&](plot::Text& text) {
                   point(text.at);
                   text.size_pt *= scale;
                 },
                 [&](plot::Image& image) { place(image.place); },
                 [&](plot::Clip& clip) { place(clip.place); },
                 [](plot::Unclip&) {},
             },
             mark);
  return mark;
}

}  // namespace

double PaperFlow::room_pt() const { return kMargin_pt + kHeight_pt - y_pt_; }

void PaperFlow::new_sheet() {
  sheets_.push_back({kSheetWidth_pt, kSheetHeight_pt, {}});
  y_pt_ = kMargin_pt;
}

void PaperFlow::need(double height_pt) {
  if (height_pt > room_pt() && y_pt_ > kMargin_pt) new_sheet();
}

void PaperFlow::skip(double height_pt) {
  if (y_pt_ > kMargin_pt) y_pt_ += height_pt;
}

void PaperFlow::text(const std::string& words, double size_pt, plot::Ink ink, double indent_pt) {
  constexpr std::size_t kMostLines = 1000;
  const double line_pt = size_pt * plot::kLineSpacing;
  for (const auto& part : plot::wrapped(words, kWidth_pt - indent_pt, size_pt, kMostLines, plot::text_width)) {
    need(line_pt);
    line(part, indent_pt, 0.0, size_pt, ink, plot::Anchor::start);
    y_pt_ += line_pt;
  }
}

void PaperFlow::line(const std::string& words, double x_pt, double down_pt, double size_pt, plot::Ink ink,
                     plot::Anchor anchor) {
  sheets_.back().marks.emplace_back(
      plot::Text{{kMargin_pt + x_pt, y_pt_ + down_pt + size_pt * plot::kLineSpacing * plot::kCapHeight}, words, size_pt, ink, anchor});
}

void PaperFlow::rule(double from_pt, double to_pt, double width_pt, plot::Ink ink) {
  sheets_.back().marks.emplace_back(
      plot::Polyline{{{kMargin_pt + from_pt, y_pt_}, {kMargin_pt + to_pt, y_pt_}}, ink, width_pt, plot::Dash::solid});
}

void PaperFlow::picture(const plot::Picture& picture, double x_pt, double down_pt, double scale) {
  auto& marks = sheets_.back().marks;
  for (const auto& mark : picture.marks) marks.push_back(moved(mark, kMargin_pt + x_pt, y_pt_ + down_pt, scale));
}

std::vector<plot::Picture> PaperFlow::finished(const std::string& title) && {
  constexpr double kSize_pt = 7.5;
  const double base_pt = kSheetHeight_pt - kMargin_pt;
  for (std::size_t k = 0; k < sheets_.size(); ++k) {
    auto& marks = sheets_[k].marks;
    marks.emplace_back(plot::Text{{kMargin_pt, base_pt},
                                  plot::shortened(title, kWidth_pt - 60.0, kSize_pt, plot::text_width),
                                  kSize_pt,
                                  plot::Ink::muted,
                                  plot::Anchor::start});
    marks.emplace_back(plot::Text{{kSheetWidth_pt - kMargin_pt, base_pt},
                                  fmt::format("{} / {}", k + 1, sheets_.size()),
                                  kSize_pt,
                                  plot::Ink::muted,
                                  plot::Anchor::end});
  }
  return std::move(sheets_);
}

}  // namespace ringfall::report
