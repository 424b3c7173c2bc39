// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/ffmpeg_reader.h"
#include "audio/input_file.h"
#include "audio/sndfile_reader.h"
#include "audio/sound_file.h"
#include "base/failure.h"

namespace ringfall::audio {

std::unique_ptr<SoundReader> open_sound(const std::string& path, const OpenOptions& options) {
  InputFile file = open_input(path);
  std::string complaint;
  if (auto reader = open_by_sndfile(file, path, complaint)) return reader;
  if (const auto container = phone_container(file.head)) return open_by_ffmpeg(path, *container, options);
  const auto container = shared_container(file.head);
  if (!container) {
    throw FileFailure(path + ": is not a sound file of a known kind; use WAV, FLAC, AIFF, CAF, Ogg, MP3 or a phone's M4A, MP4, "
                             "MOV, 3GP, AMR, WebM.");
  }
  // A codec or a damage that libsndfile does not take, ffmpeg may.
  if (ffmpeg_installed(options)) return open_by_ffmpeg(path, *container, options);
  throw FileFailure(path + ": can't be read (" + complaint + "); copy it again or export it as WAV. With the package ffmpeg "
                           "installed more kinds of files can be read.");
}

}  // namespace ringfall::audio
