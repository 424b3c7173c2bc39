// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "compare/comparison.h"

namespace ringfall::report {

/// A comparison as one JSON object (docs/output.md) and as CSV, one line a set-up and number.
std::string compare_json(const compare::Comparison& comparison, const compare::Session& session);
std::string compare_csv(const compare::Comparison& comparison);

}  // namespace ringfall::report
