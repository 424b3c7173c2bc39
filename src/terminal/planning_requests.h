// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/unit_text.h"

namespace ringfall::terminal {

/// What the verbs before and after an evening were asked to do.

struct PlanRequest {
  std::vector<std::string> setups;   ///< the baseline first
  double wanted = 1.0;               ///< smallest difference worth finding, in the number's unit
  std::string number = "exposure_db";
  std::optional<double> spread;      ///< standard deviation of the shots of one block, stated
  std::optional<double> block_spread;///< standard deviation from block to block, stated
  std::string logbook;               ///< else from what it shows; empty: none
  double power = 0.8;
  bool json = false;
};

struct SeasonRequest {
  std::string logbook;
  std::optional<std::string> bow;
  bool json = false;
  bool csv = false;
};

/// Air that the estimate at a distance is made for.
inline constexpr double kColdest_c = -20.0;
inline constexpr double kWarmest_c = 50.0;
inline constexpr double kDriest_percent = 10.0;

/// Whose word the air of an estimate is.
enum class AirFrom { asked, session, assumed };
struct AirWords {
  AirFrom temperature = AirFrom::asked;
  AirFrom humidity = AirFrom::asked;
  std::int64_t session = 0;  ///< the set-up's last one
};

struct HuntingRequest {
  std::string logbook;
  std::string setup;
  std::vector<double> distances_m = {10.0, 20.0, 30.0, 40.0};
  double mark_m = 1.0;
  std::optional<double> temperature_c;     ///< else that of the set-up's last session, else 20 C
  std::optional<double> humidity_percent;  ///< the same, else 50 %
  double pressure_kpa = 101.325;
  std::optional<double> arrow_speed_m_s;  ///< else the shots' own
  Units units = Units::metric;
  bool json = false;
};

}  // namespace ringfall::terminal
