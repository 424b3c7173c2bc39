// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <deque>
#include <optional>
#include <vector>

#include "intake/recording.h"
#include "intake/work_line.h"
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
  /// The same, by the threads of `line`, which must be finished before conclude(). The numbers don't depend on who measures.
  void add(shot::FoundEvent&& found, WorkLine& line);
  const std::vector<shot::Event>& events() const { return events_; }

  /// Which events are shots, their final numbers, places and findings, and those of the whole: into `recording`, whose format,
  /// scale and findings so far are there. Returns the events (indices, in time order) that the shots came from.
  std::vector<std::size_t> conclude(Recording& recording) &&;

 private:
  /// Its place among the others; returns where its numbers go.
  shot::Measured& enter(const shot::FoundEvent& found);

  RecordingOptions options_;
  std::vector<shot::Event> events_;
  std::deque<shot::Measured> measured_;  ///< stay where they are while others are added
  std::vector<std::vector<std::optional<double>>> impact_s_;  ///< of the first events that have an impact, else empty
  std::size_t rooms_heard_ = 0;
};

}  // namespace ringfall::intake
