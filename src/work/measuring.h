// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "intake/logbook_intake.h"

namespace ringfall::work {

/// Which kept shots are measured again.
enum class Again {
  all,
  of_other_versions  ///< those that another version of Ringfall measured
};

struct Unmeasurable {
  std::int64_t shot = 0;  ///< id
  std::int64_t block = 0;
  std::string sentence;
};

struct MeasuredAgain {
  std::vector<logbook::KeptShot> before;  ///< of those measured again, as they were
  std::vector<Unmeasurable> failed;       ///< their sound can't be read; they stay as they were
  bool stopped = false;                   ///< every shot stays as it was
};

/// Puts new numbers on kept shots from their kept sound: in one step on all whose sound can be read, or on none, since numbers of two versions
/// must not be compared. `go_on` gets the share done, 0 .. 1, and may stop it. Tests: work.Measuring.*
MeasuredAgain measure_again(logbook::Logbook& book, Again which, const std::function<bool(double)>& go_on = {});

/// Takes it back.
void put_back(logbook::Logbook& book, const std::vector<logbook::KeptShot>& before);

/// Says that a shot's loud edge is at `edge_s` of its recording, and measures it there; both or neither.
void move_edge(logbook::Logbook& book, std::int64_t shot_id, double edge_s);

/// Takes a shot's last correction back (intake::take_back_correction); all of it or nothing.
logbook::Correction::Kind take_back(logbook::Logbook& book, std::int64_t shot_id);

}  // namespace ringfall::work
