// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/source_watch.h"

#include <algorithm>
#include <limits>

namespace ringfall::audio {
namespace {

using namespace std::chrono_literals;
using Seconds = std::chrono::duration<double>;

constexpr auto kStalled = 500ms;
constexpr auto kLost = 1200ms;          // noticed within 2 s, with time to say so
constexpr auto kLostAtStart = 4s;       // sound servers may take 2 s to begin
constexpr auto kStretch = 2s;           // longer than any burst of buffered sound after a stall
constexpr auto kRateNeeds = 10s;
constexpr double kMissingLeast_s = 0.15; // buffers come and go by less
constexpr double kUnset = std::numeric_limits<double>::infinity();

}  // namespace

SourceWatch::SourceWatch(double sample_rate_hz, Duration opened)
    : rate_hz_(sample_rate_hz), opened_(opened), usual_lag_s_(kUnset), least_lag_s_(kUnset) {}

SourcePulse SourceWatch::look(Duration now, Duration last_heard, std::int64_t frames, bool finished) {
  if (finished) return SourcePulse::lost;
  if (last_heard == Duration{}) return now - opened_ > kLostAtStart ? SourcePulse::lost : SourcePulse::alive;
  count(now, frames);
  const auto silence = now - last_heard;
  return silence > kLost ? SourcePulse::lost : silence > kStalled ? SourcePulse::stalled : SourcePulse::alive;
}

void SourceWatch::count(Duration now, std::int64_t frames) {
  if (first_heard_ == Duration{}) {
    first_heard_ = now;
    first_frames_ = frames;
    stretch_begin_ = now;
    return;
  }
  const double clock_s = Seconds(now - first_heard_).count();
  const double sound_s = static_cast<double>(frames - first_frames_) / rate_hz_;
  least_lag_s_ = std::min(least_lag_s_, clock_s - sound_s);
  if (now - stretch_begin_ < kStretch) return;
  stretch_begin_ = now;
  if (usual_lag_s_ == kUnset) usual_lag_s_ = least_lag_s_;
  const double late_s = least_lag_s_ - usual_lag_s_;
  if (late_s > kMissingLeast_s) missing_s_ += late_s;
  // A card's clock may run fast or slow: the usual lag follows.
  usual_lag_s_ = least_lag_s_;
  least_lag_s_ = kUnset;
  if (now - first_heard_ >= kRateNeeds) clock_rate_hz_ = static_cast<double>(frames - first_frames_) / clock_s;
}

}  // namespace ringfall::audio
