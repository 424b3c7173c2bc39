// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "intake/chain_check.h"
#include "intake/level_meter.h"

namespace ringfall::intake {

/// Adds the findings that the numbers of a check give: `no_clap`, `floor_high`, `gain_not_constant`, `band_limited`,
/// `rate_doubtful`, `room_long`, `too_faint`. Limits with their reasons in the .cpp. Tested: intake.ChainCheck.*
void judge_chain(ChainCheck& check, double sample_rate_hz);

/// What a meter shows of the chain while one shoots, by the same limits: `no_sound`, `clipped`, `little_headroom`, `too_faint`,
/// `floor_high`; the gravest, in a short sentence; nullopt: nothing is wrong. `shot_peak_db`: highest |sample| of the last shot,
/// dB re full scale. Tested: intake.LevelMeter.*
std::optional<Finding> judge_meter(const MeterReading& reading, std::optional<double> shot_peak_db);

}  // namespace ringfall::intake
