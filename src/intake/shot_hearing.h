// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <list>
#include <optional>
#include <span>

#include "shot/find.h"
#include "shot/sample_ring.h"

namespace ringfall::intake {

/// Hears shots in a live stream. What is a shot the file finder alone decides, but it waits for a late impact (up to 1.8 s after
/// the edge), and sound must be kept sooner, numbers shown sooner. So a second, hasty finder of the same kind, which looks for
/// impacts up to 0.37 s only, runs ahead: its events are looked at when their tail ends and kept when their 1.2 s are over; the
/// file finder's verdict then confirms or refutes them. Positions count from the first sample of the stream.
class ShotHearing {
 public:
  struct Handlers {
    /// The tail of what looks like a shot has ended: 0.5 s after the edge. `clip` ends here.
    std::function<void(const shot::Clip& clip)> first_look;
    /// The sound of what looks like a shot is complete: to be kept now. Comes once for every `found`, before it.
    std::function<void(const shot::Clip& clip)> complete;
    /// It is a shot (or as good as), `onset` as it was told to `complete`.
    std::function<void(std::int64_t onset, shot::FoundEvent&& found)> found;
    /// It is none: an impact, an echo, a precursor. `complete`: it was told to complete().
    std::function<void(std::int64_t onset, bool complete)> refuted;
  };

  ShotHearing(double sample_rate_hz, const shot::FindSettings& settings, Handlers handlers);

  /// Any block size; longer ones are taken in parts of 10 ms, so that events come in the order of a live stream.
  void push(std::span<const float> samples);
  /// No more will come: everything pending is told.
  void finish();
  /// Is there something whose sound is not complete yet?
  bool expects_more() const;
  /// Samples pushed so far.
  std::int64_t end() const { return ring_.end(); }

 private:
  struct Pending {
    std::int64_t onset;
    double fraction;
    double edge_db;
    bool complete = false;
    bool waits = false;  ///< close behind another one: it may be that one's impact
  };

  void take(std::span<const float> part);
  void hasty(shot::FoundEvent&& found);
  void verdict(shot::FoundEvent&& found);
  void look_at_clock(bool at_end);
  shot::Clip cut(std::int64_t onset, double fraction, double after_s) const;
  void tell_complete(Pending& pending);

  double rate_hz_;
  shot::FindSettings settings_;
  Handlers handlers_;
  double verdict_s_;  ///< after the edge, at the latest
  shot::SampleRing ring_;
  std::list<Pending> pending_;
  std::int64_t last_verdict_ = -1;  ///< onset of the last one
  shot::ShotFinder hasty_finder_;
  shot::ShotFinder finder_;
};

}  // namespace ringfall::intake
