// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "audio/sound_writer.h"

namespace ringfall::audio {

/// A mono sound as the bytes of a sound file (flac_24_bit or wav_float), to be kept inside another file. All in memory: no file,
/// folder or descriptor is needed. FileFailure: a rate that the format does not have. Tested: audio.SoundBytes.*
std::string sound_bytes(std::span<const float> samples, double sample_rate_hz, SampleCoding coding);

/// A minute and a half at 192 kHz: no shot's sound is longer.
inline constexpr std::size_t kMostKeptSamples = std::size_t{1} << 24U;

/// The samples of such bytes. FileFailure means damage and nothing else: they are no mono FLAC or WAV of a possible rate and length,
/// or not as they were written (FLAC tells; a changed bit inside a WAV does not show). A machine out of memory is std::bad_alloc.
std::vector<float> samples_of_bytes(std::string_view bytes);

}  // namespace ringfall::audio
