// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/listen_verbs.h"

#include <variant>

namespace ringfall::terminal {
namespace {

struct RunSoundVerb {
  int operator()(const ListenRequest& request) const { return listen(request); }
  int operator()(const DevicesRequest& request) const { return devices(request); }
  int operator()(const PlayRequest& request) const { return play(request); }
  int operator()(const ChainRequest& request) const { return chain(request); }
};

}  // namespace

int sound_verb(const SoundRequest& request) { return std::visit(RunSoundVerb{}, request); }

}  // namespace ringfall::terminal
