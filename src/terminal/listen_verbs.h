// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "terminal/listen_requests.h"

namespace ringfall::terminal {

/// The verbs that use sound devices; as in verbs.h each returns the exit status.
int listen(const ListenRequest& request);
int devices(const DevicesRequest& request);
int play(const PlayRequest& request);
int chain(const ChainRequest& request);

/// The one that was asked for.
int sound_verb(const SoundRequest& request);

}  // namespace ringfall::terminal
