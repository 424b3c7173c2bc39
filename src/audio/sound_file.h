// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/finding.h"

namespace ringfall::audio {

/// What a sound file says of itself.
struct SoundFormat {
  std::string description;             ///< for people: "WAV, 24-bit PCM", "MP4, AAC"
  double sample_rate_hz = 0.0;
  int channels = 0;
  std::optional<std::int64_t> frames;  ///< as the header says; may be wrong, never allocate from it
  bool lossy = false;                  ///< a lossy codec (MP3, Vorbis, Opus, AAC, AMR ...)
  bool integer_samples = false;        ///< stored as integers: full scale is a hard limit
  int bits = 0;                        ///< of stored integer or float samples, 0 when lossy
};

/// Reads a sound file as a stream of blocks; memory does not depend on its length.
class SoundReader {
 public:
  virtual ~SoundReader() = default;
  virtual const SoundFormat& format() const = 0;
  /// Fills `interleaved` (frames * channels floats, full scale 1, values above kept) and returns the frames read; 0: the end.
  virtual std::size_t read(std::span<float> interleaved) = 0;
  /// What was odd about the file (stopped early, lossy codec, length not as stated ...); complete after the last read.
  virtual std::vector<Finding> findings() const = 0;
};

/// Opens a file by libsndfile, or, for phone and video formats, through the ffmpeg command when it is installed.
/// FileFailure says which file, what is wrong and what to do (not found, not sound, no audio track, ffmpeg missing).
std::unique_ptr<SoundReader> open_sound(const std::string& path);

/// The loudest live channel, counted from 0 (one pass through the file when there are several; 0 for mono).
int loudest_channel(const std::string& path);

}  // namespace ringfall::audio
