// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "work/changes.h"

namespace ringfall::work {

/// A session to begin.
struct NextSession {
  logbook::Conditions conditions;
  std::vector<std::string> taken_over;  ///< from the session before, as it was not said anew: "place 'hall'"
  bool other_chain = false;             ///< what was said of microphone, device or chain is another one than before
  bool calibration_lost = false;        ///< and the calibration of the session before does not hold for it
};

/// The session after `last`: what is not said is as before, but its date, air, check tone and remark are its own. A calibration holds for
/// its chain: with another microphone, device or chain (recorder, gain, placing) full-scale level, microphone and device of before go,
/// unless they are said. `bow` empty: as before. FileFailure: the calibration recording is of no use. Tests: work.Sessions.*
NextSession next_session(const logbook::Conditions& last, const std::string& bow, const SessionChange& said);

/// RequestFailure when the last session, to which what is kept belongs, is about another bow than `bow`; empty: no question.
void need_session_bow(const logbook::Conditions& last, const std::string& bow);

}  // namespace ringfall::work
