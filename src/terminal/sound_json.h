// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "audio/device.h"
#include "intake/chain_check.h"

namespace ringfall::terminal {

/// What `devices` and `chain` print for programs, docs/output.md. `last`: the device that was used last; empty: none.
std::string devices_json(const std::vector<audio::Device>& devices, const std::string& last);
std::string chain_json(const intake::ChainCheck& check);
/// `level_db` re full scale; nullopt: no clear tone was heard.
std::string check_tone_json(double tone_hz, std::optional<double> level_db);

}  // namespace ringfall::terminal
