// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/ffmpeg_reader.h"
#include "audio/input_file.h"
#include "audio/sndfile_reader.h"
#include "audio/sound_file.h"
#include "base/failure.h"

namespace ringfall::audio {

std::unique_ptr<SoundReader> open_sound(const std::string& path, const OpenOptions& options) {
  InputFile file = open_input(path);
  if (auto reader = open_by_sndfile(file, path)) return reader;
  auto container = phone_container(file.head);
  if (!container) container = shared_container(file.head);
  if (!container) {
    throw FileFailure(path + ": is not a sound file of a known kind; use WAV, FLAC, AIFF, CAF, Ogg, MP3 or a phone's M4A, MP4, "
                             "MOV, 3GP, AMR, WebM.");
  }
  return open_by_ffmpeg(path, *container, options);
}

}  // namespace ringfall::audio
