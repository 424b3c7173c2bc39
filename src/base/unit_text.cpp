// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/unit_text.h"

#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "base/units.h"

namespace ringfall {
namespace {

/// To so many decimals, without zeros at the end.
std::string short_number(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return fmt::format("{:.10g}", std::round(value * scale) / scale + 0.0);
}

}  // namespace

std::string distance_text(double distance_m, Units units) {
  return units == Units::metric ? short_number(distance_m, 2) + " m" : short_number(distance_m / kYard_m, 1) + " yd";
}

std::string brace_text(double brace_height_m, Units units) {
  return units == Units::metric ? with_unit(brace_height_m * 1000.0, "mm", 0) : with_unit(brace_height_m / kInch_m, "in", 2);
}

std::string arrow_mass_text(double mass_kg, Units units) {
  return units == Units::metric ? with_unit(mass_kg * 1000.0, "g", 1) : with_unit(mass_kg / kGrain_kg, "gr", 0);
}

std::string mass_text(double mass_kg, Units units) {
  return units == Units::metric ? short_number(mass_kg * 1000.0, 1) + " g" : with_unit(mass_kg / kOunce_kg, "oz", 2);
}

std::string draw_weight_text(double draw_weight_n, Units units) {
  return units == Units::metric ? with_unit(draw_weight_n, "N", 0) : with_unit(draw_weight_n / kPoundForce_n, "lb", 1);
}

std::string arrow_speed_text(double speed_m_s, Units units) {
  return units == Units::metric ? with_unit(speed_m_s, "m/s", 1) : with_unit(speed_m_s / kFoot_m, "ft/s", 0);
}

std::string temperature_text(double temperature_c, Units units) {
  return units == Units::metric ? short_number(temperature_c, 1) + " C" : short_number(temperature_c * 1.8 + 32.0, 0) + " F";
}

}  // namespace ringfall
