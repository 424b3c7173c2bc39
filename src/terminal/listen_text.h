// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "intake/level_meter.h"
#include "intake/listening_events.h"

namespace ringfall::terminal {

/// What has happened as one line or more for people, with the line's end; empty when there is nothing to say.
/// `blind`: numbers are not shown.
std::string event_text(const intake::ListeningEvent& event, bool blind);

/// The level as a bar of `width` marks from -60 to 0 dB re full scale, with the held peak and a clip mark.
std::string meter_text(const intake::MeterReading& reading, int width);

}  // namespace ringfall::terminal
