// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "audio/sound_writer.h"

namespace ringfall::audio {

/// A mono sound as the bytes of a sound file, to be kept inside another file. Takes a temporary file for a moment.
/// FileFailure: the folder for temporary files is of no use, or as SoundWriter. Tested: audio.SoundBytes.*
std::string sound_bytes(std::span<const float> samples, double sample_rate_hz, SampleCoding coding);

/// The samples of such bytes. FileFailure: as sound_bytes, or the bytes are no sound or damaged (FLAC tells; a
/// changed bit inside a WAV does not show).
std::vector<float> samples_of_bytes(std::string_view bytes);

}  // namespace ringfall::audio
