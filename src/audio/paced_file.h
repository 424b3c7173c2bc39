// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "audio/sound_source.h"

namespace ringfall::audio {

/// How a file is played into the program as if it were a microphone.
struct FilePace {
  double speed = 1.0;          ///< seconds of sound a second; 0: as fast as it is taken
  std::optional<int> channel;  ///< counted from 1; nullopt: the loudest live one
};

/// A sound file as a source, for trying things without a microphone and for tests: a thread of its own plays a callback's part.
/// Nothing is lost when the reader is slow: the file waits. Fails as open_sound; a file that breaks off later ends there.
/// Tested: audio.PacedFile.*
std::unique_ptr<SoundSource> play_file_in(const std::string& path, const FilePace& pace);

}  // namespace ringfall::audio
