// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <span>

#include "audio/spsc_ring.h"

namespace ringfall::audio {

/// What an audio callback and the thread that reads it share. The callback's side takes no lock, allocates nothing and touches
/// no file. When the ring is full a whole block is lost and counted; the reader finds zeros in its place, so that times stay right.
class Capture {
 public:
  using Clock = std::chrono::steady_clock;

  /// Room for `seconds` of sound that the reader may be late.
  Capture(double sample_rate_hz, double seconds);

  /// Callback: one channel of a block, `interleaved` [frames x channels]; nullptr gives zeros. `glitch`: the system says that
  /// sound was lost before this block. False: the block was lost.
  bool take(const float* interleaved, std::size_t frames, int channels, int channel, bool glitch, Clock::time_point now) noexcept;
  /// Callback or its thread: no more will come.
  void finish() noexcept { finished_.store(true, std::memory_order_release); }
  /// Callback: would a block of this size be taken?
  bool has_room(std::size_t frames) const noexcept { return samples_.space() >= frames && gaps_.space() > 0; }

  /// Reader: see SoundSource::read.
  std::size_t read(std::span<float> mono);
  /// Reader: zeros given so far in place of lost frames, and for how many losses.
  std::int64_t zeros_given() const { return zeros_given_; }
  std::int64_t overruns() const { return overruns_; }

  /// Any thread.
  bool finished() const { return finished_.load(std::memory_order_acquire); }
  std::int64_t frames() const { return frames_.load(std::memory_order_relaxed); }  ///< come from the system, lost ones too
  std::int64_t glitches() const { return glitches_.load(std::memory_order_relaxed); }
  /// When the callback last ran, from Clock's epoch; 0: never.
  Clock::duration last_heard() const { return Clock::duration(last_heard_.load(std::memory_order_relaxed)); }

 private:
  struct Gap {
    std::int64_t at = 0;      ///< samples pushed before it
    std::int64_t frames = 0;  ///< how many are missing there
  };

  SpscRing<float> samples_;
  SpscRing<Gap> gaps_;
  // Callback only.
  std::int64_t pushed_ = 0;
  std::int64_t losing_ = 0;
  // Reader only.
  std::int64_t popped_ = 0;
  std::int64_t zeros_due_ = 0;
  std::int64_t zeros_given_ = 0;
  std::int64_t overruns_ = 0;
  // Both.
  std::atomic<bool> finished_ = false;
  std::atomic<std::int64_t> frames_ = 0;
  std::atomic<std::int64_t> glitches_ = 0;
  std::atomic<Clock::duration::rep> last_heard_ = 0;
  static_assert(std::atomic<std::int64_t>::is_always_lock_free && std::atomic<Clock::duration::rep>::is_always_lock_free);
};

}  // namespace ringfall::audio
