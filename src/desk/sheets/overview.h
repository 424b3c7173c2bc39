// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/sheets/lane.h"
#include "logbook/entries.h"
#include "plot/figure.h"

namespace ringfall::desk {

/// A whole recording at a glance: the highest |sample| of each millisecond.
struct Overview {
  std::int64_t block = 0;
  std::string file;
  std::uint64_t number = 0;      ///< tells one reading from the next
  double step_s = 0.001;
  std::vector<float> peak_db;    ///< re full scale; -100 at the least
  std::string trouble;           ///< why there is none; empty: there is one

  double length_s() const { return step_s * static_cast<double>(peak_db.size()); }
};

/// Reads the recording once; `channel` from 1, nullopt: the loudest live one. Null when it was cancelled. A file that can't be
/// read is told in `trouble`.
std::shared_ptr<const Overview> read_overview(std::int64_t block, const std::string& file, std::optional<int> channel,
                                              std::uint64_t number, Ticket& ticket);

/// A picture of it, with the shots that are known.
plot::Figure overview_figure(const Overview& overview, const std::vector<logbook::KeptShot>& shots);

/// The steepest rise within 50 ms of `near_s`, where a person pointed with a hand: seconds from the recording's first sample.
/// Tests: desk.Overview.*
double steepest_near(const Overview& overview, double near_s);

}  // namespace ringfall::desk
