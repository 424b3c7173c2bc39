// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ringfall {

/// "2026-10-03T22:30:00Z" -> "2026-10-04 00:30" by this computer's clock and zone, as a person who was there says it; what is no such time comes
/// back as it is. Programs get the UTC. Tested: base.LocalTime.*
std::string local_time_text(std::string_view utc);

/// The day of it: "2026-10-04".
std::string local_day_text(std::string_view utc);

}  // namespace ringfall
