// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/finding.h"
#include "shot/shot.h"

namespace ringfall::intake {

/// What happens while listening, as values for the faces: terminal and window show the same.

/// Sound comes from the source, for the first time or again.
struct SourceOpened {
  std::string name;
  double sample_rate_hz = 0.0;
  bool again = false;
};

/// No sound any more; what was heard so far is kept. Listening tries once a second to open the source again.
struct SourceLost {
  std::string sentence;
};

/// A file-fed source is at its end.
struct SourceEnded {};

struct BlockStarted {
  std::int64_t number = 0;  ///< in the logbook
  std::string setup;
};

/// The shot's sound is in the logbook, on the disk.
struct ShotKept {
  std::int64_t id = 0;
  std::int64_t block = 0;
  double onset_s = 0.0;  ///< from the block's first sample
};

/// Numbers of the shot with the loud edge at `onset_s` of the running block.
struct ShotMeasured {
  std::optional<std::int64_t> id;  ///< nullopt: a first look may come before the sound is complete and kept
  std::int64_t block = 0;
  double onset_s = 0.0;
  bool first_look = false;  ///< from the sound up to the end of the tail; the numbers that count follow within two seconds
  bool counted = true;      ///< taken for a shot of this archer's, as things stand now
  shot::Shot shot;
};

/// What was taken for a shot (at a first look, or even kept) turned out to be an impact or some other sound, or a neighbour's shot.
struct ShotLeftOut {
  std::optional<std::int64_t> id;  ///< kept as dropped under this number; nullopt: nothing was kept
  std::int64_t block = 0;
  double onset_s = 0.0;
  std::string reason;
};

/// A shot that was left out counts after all, now that others like it have come.
struct ShotTakenBack {
  std::int64_t id = 0;
};

/// The block has been judged as a whole; its shots' numbers in the logbook are final.
struct BlockEnded {
  std::int64_t number = 0;
  std::vector<std::int64_t> shots;  ///< ids of those that count
  std::vector<Finding> findings;
  std::optional<std::string> take;  ///< the whole-take recording, when one was asked for
};

struct ArmedChanged {
  bool armed = false;
};

/// Sound was lost, or something else the person should know now.
struct Remark {
  Finding finding;
};

/// Listening has stopped because it can't go on (the logbook or the disk can't be used, no such device). One sentence.
struct Failed {
  std::string sentence;
};

using ListeningEvent = std::variant<SourceOpened, SourceLost, SourceEnded, BlockStarted, ShotKept, ShotMeasured, ShotLeftOut,
                                    ShotTakenBack, BlockEnded, ArmedChanged, Remark, Failed>;

}  // namespace ringfall::intake
