// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/thinning.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace ringfall::plot {
namespace {

/// Gathers the points of one column; ties keep the earlier point.
class Column {
 public:
  void add(Point point) {
    if (count_ == 0) first_ = lowest_ = highest_ = Seen{point, 0};
    last_ = Seen{point, count_};
    if (point.y < lowest_.point.y) lowest_ = last_;
    if (point.y > highest_.point.y) highest_ = last_;
    ++count_;
  }

  void flush_to(std::vector<Point>& run) {
    if (count_ == 0) return;
    const auto [early, late] = lowest_.order <= highest_.order ? std::pair(lowest_, highest_)
                                                               : std::pair(highest_, lowest_);
    run.push_back(first_.point);
    if (early.order > first_.order && early.order < last_.order) run.push_back(early.point);
    if (late.order > early.order && late.order < last_.order) run.push_back(late.point);
    if (last_.order > first_.order) run.push_back(last_.point);
    count_ = 0;
  }

 private:
  struct Seen {
    Point point;
    std::size_t order = 0;
  };
  Seen first_, lowest_, highest_, last_;
  std::size_t count_ = 0;
};

}  // namespace

PageRuns thin(std::span<const double> x, std::span<const double> y, const Frame& frame) {
  check(x.size() == y.size(), "a curve has as many x as y");
  PageRuns result;
  std::vector<Point> run;
  Column column;
  double column_number = 0.0;
  const auto end_run = [&] {
    column.flush_to(run);
    if (!run.empty()) result.runs.push_back(std::move(run));
    run.clear();
  };
  // All that lies left of the frame is one column, all right of it another.
  const double columns = std::ceil(frame.place.width() / kColumn_pt);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const Point point = frame.to_page({x[i], y[i]});
    if (std::isnan(point.x) || std::isnan(point.y)) {
      ++result.without_place;
      end_run();
      continue;
    }
    const double number = std::clamp(std::floor((point.x - frame.place.left) / kColumn_pt), -1.0, columns);
    if (number != column_number) column.flush_to(run);
    column_number = number;
    column.add(point);
  }
  end_run();
  return result;
}

}  // namespace ringfall::plot
