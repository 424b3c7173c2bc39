// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>

#include "audio/sound_file.h"

namespace ringfall::audio {

/// Are both commands, ffmpeg and ffprobe, there?
bool ffmpeg_installed(const OpenOptions& options);

/// Opens the first audio track of `path`, a file of the given container ("MP4"), through ffprobe and ffmpeg.
/// FileFailure: the commands are not installed, no audio track, damaged, stalled.
std::unique_ptr<SoundReader> open_by_ffmpeg(const std::string& path, const std::string& container, const OpenOptions& options);

}  // namespace ringfall::audio
