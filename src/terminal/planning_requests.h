// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/unit_text.h"
#include "work/afar.h"

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

struct HuntingRequest {
  std::string logbook;
  std::optional<std::string> bow;
  std::string setup;
  work::AfarQuestion asked;
  Units units = Units::metric;
  bool json = false;
};

}  // namespace ringfall::terminal
