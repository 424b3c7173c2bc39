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

/// A shot in which the tone was not heard: how strong it may have been all the same; as printed.
struct ToneHidden {
  std::size_t block = 0;
  std::size_t shot = 0;
  std::optional<double> at_most_db;  ///< the faintest tone that this shot would have let through; nullopt: it can't be told
};

/// A tone of the list common to all set-ups, as one set-up shows it.
struct SetUpTone {
  shot::Tone tone;                    ///< mean level (as printed; of the calibrated shots when there are any) and ring time over the shots
  std::vector<ToneReading> readings;  ///< of the shots in which it was heard
  std::vector<ToneHidden> hidden = {};  ///< of those in which it was not
};

/// What the tails of one set-up's shots show together.
struct SetUpTones {
  std::string setup;
  std::vector<SetUpTone> tones;  ///< heard in one shot or more, strongest first
  shot::TailDensity tail;        ///< pooled, dB as printed
  std::size_t tails = 0;         ///< shots in it
  std::vector<SetUpTone> silent = {};  ///< of the common list, heard in none of its shots
};

/// Takes the sound of a session's shots one by one and keeps of each what tones are looked for in (about 45 kB).
/// In a comparison there is one list of tones for all set-ups: what the tails of all shots together show, and what those of any one set-up show
/// beside (a tone of one set-up drowns in the tails of the others). It is read in each shot, so that a tone that any pool lets through or not
/// does not come and go with the set-up; all are searched up to the same instant, the end of the shortest tail.
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
  static std::vector<shot::Tone> common_list(const Search& together, const std::vector<Search>& each);
  /// The list with pitch, ring time and level as this set-up's own tails show them, where they do. With another set-up's ring time a
  /// level followed back to the start of the tail is wrong: 3 dB for 0.2 s read as 0.3 s.
  static std::vector<shot::Tone> as_shown_by(const Search& own, std::vector<shot::Tone> list);
  static void describe(const Search& own, bool mixed, double offset_db, const std::vector<double>& levels_db, shot::Tone& tone,
                       const std::vector<ToneReading>& readings);
  Search search(const std::vector<const Heard*>& heard) const;
  shot::MeasureSettings settings_;
  std::vector<Heard> heard_;
};

}  // namespace ringfall::compare
