// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/figure.h"

#include <utility>

namespace ringfall::plot {
namespace {

Axis linear_axis(std::string quantity, std::string unit) {
  Axis axis;
  axis.quantity = std::move(quantity);
  axis.unit = std::move(unit);
  return axis;
}

}  // namespace

Axis time_axis_s() { return linear_axis("Time", "s"); }

Axis time_axis_ms() { return linear_axis("Time", "ms"); }

Axis frequency_axis(double low_hz, double high_hz) {
  Axis axis = linear_axis("Frequency", "Hz");
  axis.scale = Scale::logarithmic;
  axis.low = low_hz;
  axis.high = high_hz;
  return axis;
}

Axis level_axis(std::string quantity, std::string reference) {
  return linear_axis(std::move(quantity), reference.empty() ? "dB" : "dB " + reference);
}

Axis category_axis(std::string quantity, std::vector<std::string> categories) {
  Axis axis = linear_axis(std::move(quantity), "");
  axis.categories = std::move(categories);
  return axis;
}

Trace sampled_trace(double start, double step, std::vector<double> y, Ink ink, std::string name) {
  Trace trace;
  trace.x.reserve(y.size());
  for (std::size_t i = 0; i < y.size(); ++i) trace.x.push_back(start + step * static_cast<double>(i));
  trace.y = std::move(y);
  trace.ink = ink;
  trace.name = std::move(name);
  return trace;
}

}  // namespace ringfall::plot
