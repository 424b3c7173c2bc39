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

/// How a file is opened; the defaults are for everyday use, the rest for tests.
struct OpenOptions {
  /// Folders, separated by colons, where ffmpeg and ffprobe are looked for; nullopt: the PATH of the environment.
  std::optional<std::string> program_path;
  /// A decoder that gives no sound for so long is stopped, and that is a FileFailure. > 0.
  double stall_limit_s = 30.0;
};

/// Opens a sound file of 8 to 192 kHz as a stream.
/// By libsndfile: WAV (also extensible, RF64, W64), AIFF, CAF, AU, FLAC, Ogg Vorbis, Opus, MP3. When it does not know the
/// format and the first bytes are those of a phone or video format (MP4, M4A, MOV, 3GP, AMR, WebM, Matroska ...): the
/// first audio track through the ffmpeg command, run as a child process without a shell.
/// Findings: `truncated` (stopped early or never closed), `lossy_codec`, `bad_samples` (NaN or infinite, read as 0),
/// `decoder_complaint` (the decoder found damage and went on).
/// Fails: FileFailure says which file, what is wrong and what to do (not found, a folder, empty, not sound, no audio
/// track, rate out of range, ffmpeg missing or stalled; the last also from SoundReader::read).
/// Cost: docs/measures/sound_files.md#speed. Tested: audio.SoundFormats.*, audio.Truncated.*, audio.PhoneFormats.*
std::unique_ptr<SoundReader> open_sound(const std::string& path, const OpenOptions& options = {});

/// The loudest live channel, counted from 0: the largest energy of the first difference x[n] - x[n-1], so that neither a
/// constant nor mains hum on a dead input wins; the lower index of equals, 0 when none is live or the file is mono.
/// Cost: one pass through the file when there are several channels. Fails: as open_sound. Source: own,
/// docs/measures/sound_files.md#channels. Tested: audio.LoudestChannel.*
int loudest_channel(const std::string& path, const OpenOptions& options = {});

}  // namespace ringfall::audio
