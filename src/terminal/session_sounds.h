// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "report/session_report.h"
#include "terminal/session_measure.h"

namespace ringfall::terminal {

/// What a report shows and plays of the sound itself.
struct SessionSounds {
  std::vector<report::SetUpSound> sounds;
  std::vector<report::SoundClip> clips;  ///< the typical shot of each set-up, 24-bit mono FLAC, about a second
  double clip_gain_db = 0.0;             ///< the same for all: the loudest peak is brought to -1 dB re full scale
};

/// Reads the session's recordings a second time, one shot in memory at a time.
/// FileFailure: a recording has gone meanwhile, or the folder for temporary files is of no use.
SessionSounds session_sounds(const MeasuredSession& measured, const shot::Number& main_number);

/// The chain of every recording, named as in the session's table.
std::vector<report::RecordingFacts> recording_facts(const MeasuredSession& measured);

}  // namespace ringfall::terminal
