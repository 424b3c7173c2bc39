// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <mutex>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "audio/sound_source.h"

namespace ringfall::audio {

/// What the test does to a memory source while another thread reads it.
struct MemoryReins {
  std::mutex lock;
  SourceHealth health;          ///< what the source says of itself, until its sound is over
  std::size_t most = SIZE_MAX;  ///< samples it gives before it falls silent
  bool ends = true;             ///< at the end of its sound it says so, else it goes on with nothing
};

/// Sound from memory as a source, as fast as it is taken, `rounds` times over.
class MemorySource : public SoundSource {
 public:
  MemorySource(std::vector<float> samples, double sample_rate_hz, MemoryReins& reins, std::size_t rounds = 1)
      : samples_(std::move(samples)), info_{"made-up microphone", sample_rate_hz}, reins_(reins), end_(rounds * samples_.size()) {}

  const SourceInfo& info() const override { return info_; }
  std::size_t read(std::span<float> mono) override {
    const std::scoped_lock hold(reins_.lock);
    const std::size_t to = std::min({end_, reins_.most, given_ + mono.size()});
    std::size_t done = 0;
    for (; given_ < to; ++given_) mono[done++] = samples_[given_ % samples_.size()];
    return done;
  }
  SourceHealth health() override {
    const std::scoped_lock hold(reins_.lock);
    SourceHealth health = reins_.health;
    if (given_ == end_ && reins_.ends) health.pulse = SourcePulse::ended;
    return health;
  }

 private:
  std::vector<float> samples_;
  SourceInfo info_;
  MemoryReins& reins_;
  std::size_t given_ = 0;
  std::size_t end_;
};

}  // namespace ringfall::audio
