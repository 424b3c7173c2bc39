// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "intake/recording.h"
#include "shot/chain_evidence.h"
#include "shot/find.h"
#include "shot/measure.h"

namespace ringfall::intake {

/// The loud events of one stream of sound, file or microphone, each measured as it comes, and judged together at the end.
/// Keeps some kB an event, no sound.
class HeardEvents {
 public:
  explicit HeardEvents(const RecordingOptions& options) : options_(options) {}

  /// Measures an event. The shot's number is 0 as yet.
  const shot::Shot& add(const shot::FoundEvent& found);
  const std::vector<shot::Event>& events() const { return events_; }

  /// Which events are shots, their final numbers, places and findings, and those of the whole: into `recording`, whose format,
  /// scale and findings so far are there. Returns the events (indices, in time order) that the shots came from.
  std::vector<std::size_t> conclude(Recording& recording) &&;

 private:
  RecordingOptions options_;
  std::vector<shot::Event> events_;
  std::vector<shot::Measured> measured_;
  std::vector<std::vector<std::optional<double>>> impact_s_;  ///< of the first events that have an impact, else empty
  std::size_t rooms_heard_ = 0;
};

}  // namespace ringfall::intake
