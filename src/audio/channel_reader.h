// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "audio/sound_file.h"

namespace ringfall::audio {

/// One channel of a sound file as a stream of mono blocks.
class ChannelReader {
 public:
  /// `channel` counts from 0. RequestFailure, counting from 1 as people do, when the recording has no such channel.
  ChannelReader(std::unique_ptr<SoundReader> reader, int channel);

  const SoundFormat& format() const { return reader_->format(); }
  int channel() const { return channel_; }
  /// Fills `mono` and returns the samples read; 0: the end. Fails as SoundReader::read.
  std::size_t read(std::span<float> mono);
  std::vector<Finding> findings() const { return reader_->findings(); }

 private:
  std::unique_ptr<SoundReader> reader_;
  int channel_ = 0;
  std::vector<float> interleaved_;
};

}  // namespace ringfall::audio
