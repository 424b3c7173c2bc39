// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "shot/clip.h"
#include "terminal/session_measure.h"

namespace ringfall::terminal {

/// Hands out the sound of each shot of a block with its place in SessionBlock::shots: from the recording, read once more, or from
/// the logbook. One in memory at a time. FileFailure: a recording has gone meanwhile.
void each_clip(const MeasuredSession& measured, std::size_t block,
               const std::function<void(std::size_t shot, const shot::Clip& clip, const shot::Scale& scale)>& on_clip);

}  // namespace ringfall::terminal
