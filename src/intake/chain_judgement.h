// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "intake/chain_check.h"

namespace ringfall::intake {

/// Adds the findings that the numbers of a check give: `no_clap`, `floor_high`, `gain_not_constant`, `band_limited`,
/// `rate_doubtful`, `room_long`, `too_faint`. Limits with their reasons in the .cpp. Tested: intake.ChainCheck.*
void judge_chain(ChainCheck& check, double sample_rate_hz);

}  // namespace ringfall::intake
