// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"

namespace ringfall::report {

// Ordered: a person reads it too.
using Json = nlohmann::ordered_json;

/// Null without a value; a NaN or infinity is a broken promise, never the data's.
Json json_number(std::optional<double> value);
Json json_findings(const std::vector<Finding>& findings);
/// {"name", "version"}.
Json json_tool();
/// Indented, ends with a newline; bytes that are no UTF-8 (in file names) become U+FFFD.
std::string json_text(const Json& value);

}  // namespace ringfall::report
