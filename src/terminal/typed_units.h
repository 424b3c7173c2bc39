// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "terminal/logbook_requests.h"
#include "work/limits.h"

namespace ringfall::terminal {

/// A typed quantity with its unit, held to a range in SI. "none" takes the value away. RequestFailure: not understood, or
/// out of range; `option` is named.
NumberChange typed_change(const std::optional<std::string>& typed, const std::function<double(std::string_view)>& parse,
                          work::Limits limits, const char* unit, const char* option);

/// "damper, rubber, upper limb, 12g": kind (mass, damper, silencer, other), what, place, mass; later ones may be left out.
/// RequestFailure: another kind, too much, or nothing said.
logbook::Part parse_part(const std::string& typed);

/// A bare number, as text for typed_change. RequestFailure: it is none.
double parse_plain(std::string_view typed);

/// A day, or a day and a time by this computer's clock, as UTC in ISO 8601: "2026-10-03", "2026-10-03T18:30" (a day alone: its noon, or
/// now when that is earlier). RequestFailure: no such day, or one to come.
std::string parse_date(const std::string& typed);

/// "12.34", "0:12.34", "1:02:03.4" from the start of a recording, in seconds. RequestFailure: it is no such time.
double parse_clock_s(const std::string& typed);

}  // namespace ringfall::terminal
