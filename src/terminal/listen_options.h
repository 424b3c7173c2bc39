// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "terminal/listen_requests.h"

namespace CLI {
class App;
}

namespace ringfall::terminal {

/// Everything the command line of the verbs with sound devices fills.
struct SoundReading {
  ListenRequest listen;
  DevicesRequest devices;
  PlayRequest play;
  ChainRequest chain;
};

void add_sound_verbs(CLI::App& app, SoundReading& reading);

/// The request of the verb that was given; nullopt: it was none of these.
std::optional<SoundRequest> sound_request(const CLI::App& app, const SoundReading& reading);

}  // namespace ringfall::terminal
