// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <optional>

#include "compare/session.h"
#include "shot/clip.h"
#include "shot/settings.h"

namespace ringfall::compare {

/// A shot's sound and the scale of its chain.
struct ScaledClip {
  shot::Clip clip;
  shot::Scale scale;
};
/// That of session.blocks[block].shots[shot]; nullopt: stop.
using ClipOf = std::function<std::optional<ScaledClip>(std::size_t block, std::size_t shot)>;

/// For a season: sets hum, ping, their parts and the tones of every shot to what all tails of its set-up of that session show together
/// (TonePool), so that a weak tone does not come and go. Sessions stay apart: a tone that is new must not be lent to the ones before it.
/// The sound is asked for once a shot and not kept. False: stopped, the session is in between.
/// Definition: docs/measures/season.md. Tests: compare.SeasonPool.*
bool pool_each_session(Session& session, const shot::MeasureSettings& settings, const ClipOf& clip_of);

}  // namespace ringfall::compare
