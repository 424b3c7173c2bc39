// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/ticks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"

namespace ringfall::plot {
namespace {

constexpr double kMostTicks = 60.0;
/// Ends of a range that miss a tick by rounding only still get it.
constexpr double kRounding = 1e-9;
constexpr const char* kMinus = "\xe2\x88\x92";

std::string signed_text(std::string digits) {
  if (digits.find_first_of("123456789") == std::string::npos) {
    return digits.front() == '-' ? digits.substr(1) : digits;
  }
  return digits.front() == '-' ? kMinus + digits.substr(1) : digits;
}

/// A number of a row of numbers `step` apart, with the decimals that step needs.
std::string number_text(double value, double step, double largest, Numbers numbers) {
  if (numbers == Numbers::kilo && std::abs(value) >= 1000.0) {
    return signed_text(fmt::format("{:.6g}", value / 1000.0)) + "k";
  }
  if (largest >= 1e6 || step < 1e-5) {
    const int digits = 1 + std::max(0, static_cast<int>(std::ceil(std::log10(largest / step))));
    return signed_text(fmt::format("{:.{}g}", value, std::min(digits, 15)));
  }
  const int decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + kRounding)));
  return signed_text(fmt::format("{:.{}f}", value, decimals));
}

/// 1, 2 or 5 times a power of ten, by number: 0 is 1, 1 is 2, 2 is 5, 3 is 10, -1 is 0.5 ...
double nice_step(int number) {
  const int power = static_cast<int>(std::floor(number / 3.0));
  constexpr std::array<double, 3> mantissas = {1.0, 2.0, 5.0};
  const double mantissa = mantissas.at(static_cast<std::size_t>(number - 3 * power));
  // Division keeps 0.1, 0.2 ... the nearest doubles to what they say.
  return power >= 0 ? mantissa * std::pow(10.0, power) : mantissa / std::pow(10.0, -power);
}

/// The number of the largest nice step that is not above `most`.
int step_number_below(double most) {
  int number = 3 * static_cast<int>(std::floor(std::log10(most))) + 3;
  while (nice_step(number) > most * (1.0 + kRounding)) --number;
  return number;
}

std::vector<Tick> stepped(const AxisMap& axis, double step, Numbers numbers) {
  std::vector<Tick> row;
  const double first = std::ceil(axis.low / step - kRounding);
  const double last = std::floor(axis.high / step + kRounding);
  if (last - first >= kMostTicks) return row;
  const double largest = std::max({std::abs(axis.low), std::abs(axis.high), step});
  for (double k = first; k <= last; k += 1.0) {
    const double at = std::clamp(k == 0.0 ? 0.0 : k * step, axis.low, axis.high);
    if (axis.scale == Scale::logarithmic && at <= 0.0) continue;
    row.push_back({at, number_text(k * step, step, largest, numbers)});
  }
  return row;
}

std::string decade_text(double value, Numbers numbers) {
  if (numbers == Numbers::kilo && value >= 1000.0) return fmt::format("{:.6g}k", value / 1000.0);
  return fmt::format("{:.6g}", value);
}

std::vector<Tick> decades(const AxisMap& axis, Numbers numbers, bool one_two_five, int every) {
  std::vector<Tick> row;
  const int first = static_cast<int>(std::floor(std::log10(axis.low)));
  const int last = static_cast<int>(std::ceil(std::log10(axis.high)));
  for (int power = first; power <= last; ++power) {
    if (power % every != 0) continue;
    for (int part = 0; part < (one_two_five ? 3 : 1); ++part) {
      const double at = nice_step(3 * power + part);
      if (at >= axis.low * (1.0 - kRounding) && at <= axis.high * (1.0 + kRounding)) {
        row.push_back({std::clamp(at, axis.low, axis.high), decade_text(at, numbers)});
      }
    }
  }
  return row;
}

bool has_room(const std::vector<Tick>& row, const AxisMap& axis, double nearest_pt, const Extent& extent_pt) {
  for (std::size_t i = 1; i < row.size(); ++i) {
    const double apart = std::abs(axis.to_page(row[i].at) - axis.to_page(row[i - 1].at));
    const double labels = (extent_pt(row[i].label) + extent_pt(row[i - 1].label)) / 2.0 + kLabelGap_pt;
    if (apart < std::max(labels, nearest_pt)) return false;
  }
  return true;
}

std::vector<Tick> linear_ticks(const AxisMap& axis, Numbers numbers, double nearest_pt, const Extent& extent_pt) {
  const double range = axis.high - axis.low;
  const double length_pt = std::max(std::abs(axis.to_pt - axis.from_pt), 1.0);
  int number = step_number_below(range * std::min(1.0, nearest_pt / length_pt));
  for (; nice_step(number) <= range * (1.0 + kRounding); ++number) {
    std::vector<Tick> row = stepped(axis, nice_step(number), numbers);
    if (row.empty() || !has_room(row, axis, nearest_pt, extent_pt)) continue;
    // One number is no scale: rather two close together.
    for (int finer = number - 1; row.size() < 2 && finer > number - 3; --finer) {
      std::vector<Tick> closer = stepped(axis, nice_step(finer), numbers);
      if (has_room(closer, axis, 0.0, extent_pt)) row = std::move(closer);
    }
    return row;
  }
  // No two fit: the roundest single one, if any.
  std::vector<Tick> row = stepped(axis, nice_step(step_number_below(range)), numbers);
  if (row.size() > 1) row.resize(1);
  return row;
}

std::vector<Tick> log_ticks(const AxisMap& axis, Numbers numbers, double nearest_pt, const Extent& extent_pt) {
  std::vector<Tick> row = decades(axis, numbers, true, 1);
  if (row.size() < 3) return linear_ticks(axis, numbers, nearest_pt, extent_pt);
  if (has_room(row, axis, nearest_pt, extent_pt)) return row;
  for (int every = 1; every < 1000; ++every) {
    row = decades(axis, numbers, false, every);
    if (has_room(row, axis, nearest_pt, extent_pt)) return row;
  }
  return {};
}

}  // namespace

std::vector<Tick> ticks(const AxisMap& axis, Numbers numbers, double nearest_pt, const Extent& extent_pt) {
  check(axis.low < axis.high, "an axis has a range");
  check(axis.scale == Scale::linear || axis.low > 0.0, "a logarithmic axis lies above zero");
  return axis.scale == Scale::linear ? linear_ticks(axis, numbers, nearest_pt, extent_pt)
                                     : log_ticks(axis, numbers, nearest_pt, extent_pt);
}

Range rounded_outward(Range range, int intervals) {
  check(range.low < range.high && intervals > 0, "a range to round");
  const double step = nice_step(step_number_below((range.high - range.low) / intervals));
  return {std::floor(range.low / step + kRounding) * step, std::ceil(range.high / step - kRounding) * step};
}

}  // namespace ringfall::plot
