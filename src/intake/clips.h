// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

#include "intake/recording.h"
#include "logbook/entries.h"
#include "shot/clip.h"

namespace ringfall::intake {

/// Reads the recording once more and hands out each shot's clip, in time order, one in memory at a time (clips that
/// overlap excepted). `index` counts from 0 as in Recording::shots.
void clips_of(const Recording& recording, const shot::FindSettings& settings,
              const std::function<void(std::size_t index, const shot::Clip&)>& on_clip);

/// A clip as the logbook keeps it, from a recording of this format: FLAC when that is exact, else 32-bit WAV.
logbook::CodedClip coded_clip(const shot::Clip& clip, const shot::Shot& shot, const audio::SoundFormat& format);

}  // namespace ringfall::intake
