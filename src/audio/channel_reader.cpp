// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/channel_reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/check.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kBufferFrames = 16384;

}  // namespace

ChannelReader::ChannelReader(std::unique_ptr<SoundReader> reader, int channel)
    : reader_(std::move(reader)), channel_(channel) {
  const int channels = reader_->format().channels;
  if (channel < 0 || channel >= channels) {
    throw RequestFailure(channels == 1
                             ? fmt::format("Channel {} was asked for, but the recording is mono: its only channel is 1.", channel + 1)
                             : fmt::format("Channel {} was asked for, but the recording has {} channels (1 to {}).", channel + 1,
                                           channels, channels));
  }
}

std::size_t ChannelReader::read(std::span<float> mono) {
  check(!mono.empty(), "a block holds at least one sample");
  const auto channels = static_cast<std::size_t>(reader_->format().channels);
  if (channels == 1) return reader_->read(mono);
  const std::size_t frames = std::min(mono.size(), kBufferFrames);
  interleaved_.resize(frames * channels);
  std::size_t done = 0;
  while (done < mono.size()) {
    const std::size_t wanted = std::min(frames, mono.size() - done);
    const std::size_t got = reader_->read(std::span(interleaved_).first(wanted * channels));
    for (std::size_t k = 0; k < got; ++k) mono[done + k] = interleaved_[k * channels + static_cast<std::size_t>(channel_)];
    done += got;
    if (got < wanted) break;
  }
  return done;
}

}  // namespace ringfall::audio
