// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "compare/session.h"

namespace ringfall::report {

/// What was said against what was measured: {"ratings": [...], "shots": [...]}.
nlohmann::ordered_json compare_words_json(const compare::Session& session, const std::string& main_number);

}  // namespace ringfall::report
