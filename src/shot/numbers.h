// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "shot/shot.h"

namespace ringfall::shot {

/// The single numbers of a shot, listed once: tables, spreadsheets and comparisons walk this list.
struct Number {
  std::string_view id;     ///< as in the machine-readable output: "exposure_db"
  std::string_view label;  ///< for people: "sound exposure"
  std::string_view unit;   ///< "dB", "s", "Hz", "sone", "acum", "points", "m/s"
  int decimals;            ///< worth showing, in the unit
  /// A difference this large is what a person would notice or care about, in the unit; 0 where none is known.
  /// 1 dB: the limit of memory between set-ups (common practice, no source); half a point: docs/measures/hum_ping.md.
  double noticeable;
  bool bound;              ///< not a value but the most that one could be
  std::optional<double> (*of)(const Shot& shot);
  std::optional<double>& (*in)(Shot& shot);  ///< the same value, to be set when a shot is read back
};

/// All numbers, in the order to show them.
std::span<const Number> numbers();

/// The number of this id, or nullptr.
const Number* find_number(std::string_view id);

}  // namespace ringfall::shot
