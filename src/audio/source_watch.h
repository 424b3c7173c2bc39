// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>

#include "audio/sound_source.h"

namespace ringfall::audio {

/// Notices that a sound device has died or lost sound without saying so, from what its callback leaves behind: PortAudio
/// calls a stream active whose server hangs, and a suspended source is told nowhere. Times are given, so that it can be tested.
/// Limits and why: docs/measures/listening.md#loss. Tested: audio.SourceWatch.*
class SourceWatch {
 public:
  using Duration = std::chrono::steady_clock::duration;

  /// `opened`: when the source was started.
  SourceWatch(double sample_rate_hz, Duration opened);
  /// `last_heard`: of the callback, 0 when it never ran; `frames`: all that came; `finished`: the system said that the stream
  /// is over. Call it several times a second.
  SourcePulse look(Duration now, Duration last_heard, std::int64_t frames, bool finished);
  /// Sound that never came, by the clock.
  double missing_s() const { return missing_s_; }
  /// Frames per second of the clock, once there are ten seconds to tell it from, to some 0.5 %.
  std::optional<double> clock_rate_hz() const { return clock_rate_hz_; }

 private:
  void count(Duration now, std::int64_t frames);

  double rate_hz_;
  Duration opened_;
  Duration first_heard_{};
  std::int64_t first_frames_ = 0;
  double usual_lag_s_ = 0.0;   ///< clock time less sound time: the buffers between
  double least_lag_s_ = 0.0;   ///< in the present stretch
  Duration stretch_begin_{};
  double missing_s_ = 0.0;
  std::optional<double> clock_rate_hz_;
};

}  // namespace ringfall::audio
