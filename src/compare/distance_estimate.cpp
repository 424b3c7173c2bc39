// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/distance_estimate.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"
#include "base/units.h"

namespace ringfall::compare {
namespace {

constexpr double kReferenceTemperature_k = 293.15;
constexpr double kTriplePoint_k = 273.16;
constexpr double kReferencePressure_kpa = 101.325;
constexpr double kZeroCelsius_k = 273.15;

/// Nominal octave, its exact middle 1000 * 10^(0.3 n) and A weighting there (IEC 61672-1:2013 Table 3).
struct OctaveRow {
  double nominal_hz;
  double exact_hz;
  double a_db;
};
constexpr std::array kOctaves = {OctaveRow{63.0, 63.0957344480, -26.2}, OctaveRow{125.0, 125.892541179, -16.1},
                                 OctaveRow{250.0, 251.188643151, -8.6}, OctaveRow{500.0, 501.187233627, -3.2},
                                 OctaveRow{1000.0, 1000.0, 0.0},        OctaveRow{2000.0, 1995.26231497, 1.2},
                                 OctaveRow{4000.0, 3981.07170553, 1.0}, OctaveRow{8000.0, 7943.28234724, -1.1},
                                 OctaveRow{16000.0, 15848.9319246, -6.6}};
constexpr double kHighFrom_hz = 1500.0;

const OctaveRow& octave_row(double nominal_hz) {
  const auto found = std::ranges::find(kOctaves, nominal_hz, &OctaveRow::nominal_hz);
  check(found != kOctaves.end(), "an octave 63 Hz to 16 kHz");
  return *found;
}

}  // namespace

double air_absorption_db_per_m(double frequency_hz, const Air& air) {
  check(frequency_hz > 0.0 && air.pressure_kpa > 0.0, "a frequency and a pressure above 0");
  const double kelvin = air.temperature_c + kZeroCelsius_k;
  const double warm = kelvin / kReferenceTemperature_k;
  const double pressure = air.pressure_kpa / kReferencePressure_kpa;
  // Molar concentration of water vapour in per cent, annex B.
  const double saturation = std::pow(10.0, -6.8346 * std::pow(kTriplePoint_k / kelvin, 1.261) + 4.6151);
  const double h = air.humidity_percent * saturation / pressure;
  const double oxygen_hz = pressure * (24.0 + 4.04e4 * h * (0.02 + h) / (0.391 + h));
  const double nitrogen_hz =
      pressure / std::sqrt(warm) * (9.0 + 280.0 * h * std::exp(-4.170 * (std::pow(warm, -1.0 / 3.0) - 1.0)));
  const double square = frequency_hz * frequency_hz;
  const double classical = 1.84e-11 / pressure * std::sqrt(warm);
  const double oxygen = 0.01275 * std::exp(-2239.1 / kelvin) / (oxygen_hz + square / oxygen_hz);
  const double nitrogen = 0.1068 * std::exp(-3352.0 / kelvin) / (nitrogen_hz + square / nitrogen_hz);
  return 8.686 * square * (classical + std::pow(warm, -2.5) * (oxygen + nitrogen));
}

std::optional<DistanceEstimate> estimate_at(const DistanceQuestion& question, double distance_m) {
  check(question.mark_m > 0.0 && distance_m >= question.mark_m, "no nearer than the mark");
  if (question.at_mark.empty()) return std::nullopt;
  DistanceEstimate estimate;
  estimate.distance_m = distance_m;
  estimate.spreading_db = amplitude_to_db(distance_m / question.mark_m);
  double a = 0.0, a_at_mark = 0.0, z = 0.0, high = 0.0;
  for (const OctaveLevel& band : question.at_mark) {
    const OctaveRow& row = octave_row(band.nominal_hz);
    const double in_air_db = air_absorption_db_per_m(row.exact_hz, question.air) * (distance_m - question.mark_m);
    const double level_db = band.level_db - estimate.spreading_db - in_air_db;
    estimate.bands.push_back({band.nominal_hz, level_db});
    z += db_to_power(level_db);
    a += db_to_power(level_db + row.a_db);
    a_at_mark += db_to_power(band.level_db + row.a_db);
    if (band.nominal_hz > kHighFrom_hz) {
      high += db_to_power(level_db);
      estimate.high_to_hz = std::max(estimate.high_to_hz.value_or(0.0), band.nominal_hz);
    }
  }
  estimate.level_a_db = power_to_db(a);
  estimate.level_z_db = power_to_db(z);
  if (high > 0.0) estimate.level_high_db = power_to_db(high);
  estimate.lost_in_air_a_db = power_to_db(a_at_mark) - estimate.spreading_db - estimate.level_a_db;
  estimate.sound_s = distance_m / sound_speed_m_s(question.air.temperature_c);
  if (question.arrow_speed_m_s) estimate.arrow_s = distance_m / *question.arrow_speed_m_s;
  return estimate;
}

std::vector<std::string> not_modelled() {
  return {
      "The ground (it can add or take several dB), wind and temperature layers, trees and undergrowth, walls and rain.",
      "Which way the bow sounds: the level was measured at one place beside it.",
      "The arrow's own noise on its way, and that it slows down: it arrives a little later than said.",
      "What an animal hears and does. A quieter bow lowers the chance that it starts; nothing here tells what it will do.",
  };
}

std::vector<std::string> hunting_cautions() {
  return {
      "No distance is made safe or right by these numbers. Wounding is the risk; law, licence, minimum draw weight and the distance that "
      "you may answer for are local and yours.",
      "The sound arrives before every arrow. Quiet lowers the chance of a start, speed and distance its size.",
      "No arrow lighter than the bow's maker allows: it is louder and dangerous.",
      "Check bolts, limbs, string and broadheads before you hunt. Never loose the string without an arrow.",
      "An uncalibrated microphone tells differences, not levels that hold elsewhere.",
  };
}

}  // namespace ringfall::compare
