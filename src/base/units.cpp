// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/units.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <string>

#include "base/failure.h"

namespace ringfall {
namespace {

struct NumberAndUnit {
  double number;
  std::string unit;
};

NumberAndUnit split(std::string_view text, std::string_view what, std::string_view example) {
  const auto refuse = [&] {
    return RequestFailure(
        fmt::format("'{}' is not a {}; write it like {}", text, what, example));
  };
  const auto first = text.find_first_not_of(" +");
  if (first == std::string_view::npos) throw refuse();
  const char* begin = text.data() + first;
  const char* end = text.data() + text.size();
  double number = 0.0;
  const auto [rest, error] = std::from_chars(begin, end, number);
  if (error != std::errc{} || !std::isfinite(number)) throw refuse();
  std::string unit(rest, end);
  std::erase(unit, ' ');
  return {number, unit};
}

[[noreturn]] void refuse_unit(std::string_view text, std::string_view unit, std::string_view known) {
  if (unit.empty()) throw RequestFailure(fmt::format("'{}' has no unit; write {} behind it", text, known));
  throw RequestFailure(
      fmt::format("'{}': the unit '{}' is not known here; use {}", text, unit, known));
}

}  // namespace

double power_to_db(double ratio) { return 10.0 * std::log10(ratio); }
double amplitude_to_db(double ratio) { return 20.0 * std::log10(ratio); }
double db_to_power(double level_db) { return std::pow(10.0, level_db / 10.0); }
double db_to_amplitude(double level_db) { return std::pow(10.0, level_db / 20.0); }

double sound_speed_m_s(double temperature_c) {
  return 343.2 * std::sqrt((temperature_c + 273.15) / 293.15);
}

double parse_distance_m(std::string_view text) {
  const auto [number, unit] = split(text, "distance", "18m or 20yd");
  if (unit.empty() || unit == "m") return number;
  if (unit == "yd" || unit == "y") return number * kYard_m;
  if (unit == "ft") return number * kFoot_m;
  refuse_unit(text, unit, "m, yd or ft");
}

double parse_speed_m_s(std::string_view text) {
  const auto [number, unit] = split(text, "speed", "60m/s or 197ft/s");
  if (unit.empty() || unit == "m/s") return number;
  if (unit == "ft/s" || unit == "fps") return number * kFoot_m;
  if (unit == "km/h") return number / 3.6;
  refuse_unit(text, unit, "m/s or ft/s");
}

double parse_mass_kg(std::string_view text) {
  const auto [number, unit] = split(text, "mass", "180g, 412gr or 6.3oz");
  if (unit.empty() || unit == "g") return number / 1000.0;
  if (unit == "kg") return number;
  if (unit == "gr" || unit == "gn") return number * kGrain_kg;
  if (unit == "oz") return number * kOunce_kg;
  if (unit == "lb") return number * kPound_kg;
  refuse_unit(text, unit, "g, kg, gr (grains), oz or lb");
}

double parse_force_n(std::string_view text) {
  const auto [number, unit] = split(text, "draw weight", "40lb, 18kg or 178N");
  if (unit == "N") return number;
  if (unit == "lb" || unit == "lbs" || unit == "lbf") return number * kPoundForce_n;
  if (unit == "kg" || unit == "kgf") return number * kFreeFall_m_s2;
  refuse_unit(text, unit, "lb, kg or N");
}

double parse_length_m(std::string_view text) {
  const auto [number, unit] = split(text, "length", "216mm, 21.6cm or 8.5in");
  if (unit == "m") return number;
  if (unit == "cm") return number / 100.0;
  if (unit == "mm") return number / 1000.0;
  if (unit == "in") return number * kInch_m;
  refuse_unit(text, unit, "mm, cm, in or m");
}

double parse_temperature_c(std::string_view text) {
  const auto [number, unit] = split(text, "temperature", "15C or 59F");
  if (unit.empty() || unit == "C") return number;
  if (unit == "F") return (number - 32.0) / 1.8;
  refuse_unit(text, unit, "C or F");
}

}  // namespace ringfall
