// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/session.h"
#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"
#include "shot/tail_tones.h"

namespace ringfall::compare {

/// A pooled tone as one shot shows it; levels as printed.
struct ToneReading {
  std::size_t block = 0;  ///< index in Session::blocks
  std::size_t shot = 0;   ///< index in its shots
  double level_db = 0.0;
  std::optional<double> ring_time_s;  ///< nullopt: too near the noise in this shot to be told
};

/// A tone of a set-up: found once in the tails of all its shots together, then read in each.
struct SetUpTone {
  shot::Tone tone;                    ///< mean level (as printed; of the calibrated shots when there are any) and ring time over the shots
  std::vector<ToneReading> readings;  ///< of the shots in which it was heard
};

/// What the tails of one set-up's shots show together.
struct SetUpTones {
  std::string setup;
  std::vector<SetUpTone> tones;  ///< strongest first
  shot::TailDensity tail;        ///< pooled, dB as printed
  std::size_t tails = 0;         ///< shots in it
};

/// Takes the sound of a session's shots one by one and keeps of each what tones are looked for in (about 45 kB).
/// In a comparison tones are found on the pooled tails of a set-up and read in each of its shots, so that a weak one does not
/// come and go from shot to shot; all set-ups are searched up to the same instant, the end of the shortest tail.
/// Definition and gain: docs/measures/comparison.md#pooled. Tests: compare.TonePool.*
class TonePool {
 public:
  explicit TonePool(const shot::MeasureSettings& settings) : settings_(settings) {}

  /// Is there anything to hear in session.blocks[block].shots[shot]? Its block counts and it has a hum or a ping, or lacks it only
  /// because something may hide a tone from that shot alone (`tail_masked`).
  static bool wants(const Session& session, std::size_t block, std::size_t shot);

  /// The sound of session.blocks[block].shots[shot]. What it does not want is left out.
  void add(const Session& session, std::size_t block, std::size_t shot, const shot::Clip& clip, const shot::Scale& scale);

  /// Finds and reads the tones; sets hum, ping and their parts in the session's shots to the pooled reading. A score that was
  /// missing stays missing, but for a masked one: the shot gets it, and loses the finding, when its own noise would let through what
  /// matters and the pool has no doubtful line. One entry a set-up that has tails, in the order of session.setups().
  std::vector<SetUpTones> read(Session& session);

 private:
  struct Heard {
    std::size_t block;
    std::size_t shot;
    bool hum;   ///< its tail can be listened to for hum
    bool ping;
    double offset_db;
    shot::TailSound tail;
  };
  struct Search;
  Search search(const std::vector<const Heard*>& heard) const;
  shot::MeasureSettings settings_;
  std::vector<Heard> heard_;
};

}  // namespace ringfall::compare
