// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>

#include "audio/input_file.h"
#include "audio/sound_file.h"

namespace ringfall::audio {

/// Opens `file` (named `path` in messages) through libsndfile. Null when libsndfile can't, with its reason in `complaint`;
/// FileFailure when it can but the file can't be used.
std::unique_ptr<SoundReader> open_by_sndfile(InputFile& file, const std::string& path, std::string& complaint);

/// The rates Ringfall can measure. FileFailure naming `path` outside 8 .. 192 kHz.
void check_sample_rate(double sample_rate_hz, const std::string& path);

}  // namespace ringfall::audio
