// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "intake/recording.h"
#include "logbook/entries.h"

namespace ringfall::intake {

/// How sound of a session is measured: its full-scale level, its distance to the target, its air. The same for a recording that is added, for
/// listening, and for measuring a kept clip again.
RecordingOptions options_of(const logbook::Conditions& conditions);

shot::Scale scale_of(const logbook::Conditions& conditions);

}  // namespace ringfall::intake
