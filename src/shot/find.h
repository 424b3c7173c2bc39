// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/finding.h"
#include "shot/clip.h"
#include "shot/settings.h"

namespace ringfall::shot {

/// What the finder says of one loud event, small enough to keep for a whole day.
struct Event {
  std::int64_t onset_sample = 0;  ///< the loud edge, from the recording's first sample
  double onset_fraction = 0.0;    ///< 0 <= fraction < 1
  std::optional<std::int64_t> impact_sample;
  std::optional<std::int64_t> next_shot_sample;  ///< onset of the next event, when inside this one's post-roll
  double edge_db = 0.0;           ///< mean square of x(t) - x(t - 1/24000 s), first 5 ms, dB: how loud the edge is
  double body_db = 0.0;           ///< mean square of the first 30 ms above some 60 Hz, dB
  double brightness_hz = 0.0;     ///< rms frequency of the first 5 ms
  double peak = 0.0;              ///< highest |sample| of the edge's first 20 ms, full scale = 1
  double likeness = 0.0;          ///< 0 .. 1: how shot-like the event is by itself
  bool has_quiet_before = true;   ///< a floor could be had before the edge
};

/// An event with the sound around it, handed out as soon as its post-roll has passed.
struct FoundEvent {
  Event event;
  Clip clip;
};

/// Finds shots in a stream of mono samples, file or microphone alike.
/// Memory: the last pre_roll + post_roll seconds and a few numbers an event; independent of the length.
class ShotFinder {
 public:
  using OnEvent = std::function<void(FoundEvent&&)>;

  /// sample_rate_hz 8000 .. 192000. `on_event` is called from push() and finish(), in time order, for every event
  /// that may be a shot (never for one already known to be a target impact, a clicker or a release).
  ShotFinder(double sample_rate_hz, const FindSettings& settings, OnEvent on_event);
  ~ShotFinder();
  ShotFinder(ShotFinder&&) noexcept;
  ShotFinder& operator=(ShotFinder&&) noexcept;

  /// Any block size, also one sample. Non-finite samples count as 0 (a finding is for the caller to make).
  void push(std::span<const float> samples);
  /// The recording has ended: hands out what is still pending.
  void finish();

 private:
  struct Part;
  std::unique_ptr<Part> part_;
};

/// Which of the events of a whole recording are shots: drops neighbours' shots and other loud things, and with
/// `expect` keeps the N most shot-like. Needs all events, in time order.
struct Selection {
  std::vector<std::size_t> shots;   ///< indices into `events`, in time order
  /// Of `shots` those whose impact no other shot's lag supports: some other sound, good to end the tail at, no lag.
  std::vector<std::size_t> doubtful_impacts;
  /// Of `shots` those that may as well be a neighbour's: they count, and the finding own_or_neighbour names them.
  std::vector<std::size_t> in_doubt;
  std::vector<Finding> findings;    ///< what was left out and why, about the recording
};
Selection select_shots(std::span<const Event> events, double sample_rate_hz,
                       const FindSettings& settings);

}  // namespace ringfall::shot
