// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "compare/measure.h"
#include "compare/session.h"
#include "stats/stratified.h"

namespace ringfall::compare {

/// Which of a session's shots to take.
enum class Take {
  kept,      ///< those that count
  with_drops ///< those that their owner left out as well
};

/// Reads something of a shot; nullopt: it has none.
using ShotReader = std::function<std::optional<double>(const SessionBlock&, const SessionShot&)>;

/// Values of a set-up, block by block (a block without a value is empty).
stats::Blocks values_of(const Session& session, const std::string& setup, const Measure& measure, Take take = Take::kept);

inline stats::Blocks values_of(const Session& session, const std::string& setup, const shot::Number& number) {
  return values_of(session, setup, measure_of(number));
}

/// The values of two set-ups, session (evening) by session, block by block: `first` the baseline's.
std::vector<stats::SessionBlocks> session_values(const Session& session, const std::string& baseline, const std::string& setup,
                                                 const ShotReader& read, Take take = Take::kept);

}  // namespace ringfall::compare
