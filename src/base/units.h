// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace ringfall {

/// Reference pressure of sound levels in air: 20 uPa (ISO 1683, IEC 61672-1 3.1).
inline constexpr double kReferencePressure_pa = 20e-6;

/// Level of a full-scale peak assumed when the chain is not calibrated (docs/measures/levels.md).
inline constexpr double kNominalFullScale_db_spl = 120.0;

/// Exact definitions: international yard and pound (1959), grain = pound / 7000.
inline constexpr double kYard_m = 0.9144;
inline constexpr double kFoot_m = 0.3048;
inline constexpr double kInch_m = 0.0254;
inline constexpr double kPound_kg = 0.45359237;
inline constexpr double kOunce_kg = kPound_kg / 16.0;
inline constexpr double kGrain_kg = kPound_kg / 7000.0;
/// Standard acceleration of free fall (3rd CGPM, 1901), exact: a pound of draw weight is a force of 4.448... N.
inline constexpr double kFreeFall_m_s2 = 9.80665;
inline constexpr double kPoundForce_n = kPound_kg * kFreeFall_m_s2;

/// 10 lg(ratio); -infinity for 0. For energies, powers, squared amplitudes.
double power_to_db(double ratio);
/// 20 lg(ratio); -infinity for 0. For amplitudes and pressures.
double amplitude_to_db(double ratio);
double db_to_power(double level_db);
double db_to_amplitude(double level_db);

/// Speed of sound in dry-enough air, 343.2 * sqrt(T / 293.15 K) m/s (ISO 9613-1:1993 A.5).
/// temperature_c: -40 .. 60.
double sound_speed_m_s(double temperature_c);

/// What is reckoned with where nobody said how warm the air was. 10 C off change an arrow speed of 60 m/s by 0.3 %: its error is
/// speed / speed of sound times half the error of the absolute temperature.
inline constexpr double kAssumedTemperature_c = 20.0;

/// "18", "18m", "20 yd", "60ft" -> metres; a bare number is metres. RequestFailure names what was not understood.
double parse_distance_m(std::string_view text);

/// "60", "60m/s", "197 ft/s", "197fps" -> m/s; a bare number is m/s.
double parse_speed_m_s(std::string_view text);

/// "180", "180g", "412gr", "6.3oz", "1.5lb", "0.2kg" -> kg; a bare number is grams, gr and gn are grains.
double parse_mass_kg(std::string_view text);

/// "40lb", "18kg", "178N" -> newtons; draw weight has no unit of its own, so it must be named.
double parse_force_n(std::string_view text);

/// "216mm", "21.6cm", "8.5in", "0.216m" -> metres; the unit must be named.
double parse_length_m(std::string_view text);

/// "15", "15C", "59F" -> degrees Celsius; a bare number is Celsius.
double parse_temperature_c(std::string_view text);

}  // namespace ringfall
