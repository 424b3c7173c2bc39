// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <span>
#include <string>

namespace ringfall::audio {

/// Records a whole take, of any length, so that after a crash or a power cut all that reached the disk can be read: mono W64
/// of 32-bit floats, readable without its header ever being finished. Source: own, docs/measures/listening.md#takes.
/// Tested: audio.TakeWriter.*
class TakeWriter {
 public:
  /// Makes `path` (.w64). FileFailure: it is there already, or can't be written.
  TakeWriter(const std::string& path, double sample_rate_hz);
  ~TakeWriter();
  TakeWriter(const TakeWriter&) = delete;
  TakeWriter& operator=(const TakeWriter&) = delete;

  const std::string& path() const;
  /// The samples are with the operating system when it returns: the program may die. FileFailure: the disk is full.
  void write(std::span<const float> samples);
  /// They are on the disk when it returns: the computer may die.
  void sync();

 private:
  struct File;
  std::unique_ptr<File> file_;
};

/// A finished take `path` as FLAC of 24 bits beside it, in whose favour it is removed; returns the FLAC's path. A take that
/// 24 bits would change, or that FLAC can't hold, stays as it is, and its own path is returned. Takes some seconds an hour of
/// sound. FileFailure as SoundWriter; the take is still there then.
std::string pack_take(const std::string& path);

}  // namespace ringfall::audio
