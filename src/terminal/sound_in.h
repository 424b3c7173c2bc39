// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "audio/sound_system.h"
#include "terminal/listen_requests.h"

namespace ringfall::terminal {

/// How to open what was asked for. `system` must outlive it. A microphone that could be opened is remembered.
audio::OpenSource sound_in(const SoundInRequest& request, audio::SoundSystem& system);

}  // namespace ringfall::terminal
