// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "terminal/logbook_requests.h"

namespace ringfall::terminal {

/// Puts what was given into what is there.
void apply(const FittingsChange& change, logbook::Fittings& fittings);
/// A calibration recording is read here (FileFailure when it is of no use); a new full-scale level goes before the old one.
void apply(const SessionChange& change, logbook::Conditions& conditions);

template <typename Value>
void apply(const std::optional<Value>& change, Value& value) {
  if (change) value = *change;
}

}  // namespace ringfall::terminal
