// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "shot/find.h"
#include "shot/invented_evening.h"

namespace ringfall::shot {

/// Every event of a recording, pushed in blocks.
std::vector<FoundEvent> find_all(std::span<const float> samples, double sample_rate_hz, const FindSettings& settings,
                                 std::size_t block);

/// The loud edge in seconds, sub-sample.
double onset_s(const Event& event, double sample_rate_hz);

/// Finds and selects, and holds the shots against the truth: a shot within 5 ms of an own one is that one.
Agreement judge(const InventedEvening& evening);

}  // namespace ringfall::shot
