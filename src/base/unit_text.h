// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ringfall {

/// How lengths, masses, forces and speeds are shown to people; kept and printed for programs they are always SI.
enum class Units { metric, archers };

/// "18 m"; "19.7 yd".
std::string distance_text(double distance_m, Units units);
/// "216 mm"; "8.50 in".
std::string brace_text(double brace_height_m, Units units);
/// "26.7 g"; "412 gr".
std::string arrow_mass_text(double mass_kg, Units units);
/// "180 g"; "6.35 oz".
std::string mass_text(double mass_kg, Units units);
/// "178 N"; "40.0 lb".
std::string draw_weight_text(double draw_weight_n, Units units);
/// "60.0 m/s"; "197 ft/s".
std::string arrow_speed_text(double speed_m_s, Units units);
/// "15 C"; "59 F".
std::string temperature_text(double temperature_c, Units units);

}  // namespace ringfall
