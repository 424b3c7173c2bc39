// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "compare/session.h"
#include "shot/numbers.h"

namespace ringfall::report {

/// Where a shot stands in a session.
struct ShotPlace {
  std::size_t block = 0;
  std::size_t shot = 0;
};

/// The shot of a set-up whose number lies nearest the set-up's mean (the first of equals); dropped blocks left out; nullopt: no shot has
/// the number.
/// Tests: report.TypicalShot.*
std::optional<ShotPlace> typical_shot(const compare::Session& session, const std::string& setup,
                                      const shot::Number& number);

}  // namespace ringfall::report
