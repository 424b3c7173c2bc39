// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "intake/recording.h"
#include "logbook/logbook.h"
#include "shot/settings.h"

namespace ringfall::intake {

/// Where a recording goes in a logbook.
struct BlockPlace {
  std::string setup;
  std::string note;
  std::string dropped;  ///< why it is left out; empty: it is not
  std::int64_t session = 0;  ///< 0: the logbook's last
  std::string file = {};     ///< what the recording is called in the logbook; empty: where it is
};

struct AddedBlock {
  std::int64_t number = 0;
  std::vector<std::int64_t> shots;  ///< their ids, in the recording's order
};

/// RequestFailure when a shot of the recording is kept already, sample for sample, in a block that is not dropped: it names the block.
/// The file's name does not matter. Tested: intake.LogbookIntake.*
void refuse_kept_sound(const logbook::Logbook& logbook, const Recording& recording, const shot::FindSettings& find);

/// Keeps a measured recording as one block. Each shot's sound (0.8 s before to 1.2 s after the edge; FLAC when that is exact, else
/// 32-bit WAV) and its numbers are one transaction: stopped half-way, nothing is kept, and the same can be added again. RequestFailure: no such
/// set-up, or as refuse_kept_sound, and nothing is kept. LogbookFailure, FileFailure: as Logbook and clips_of. Tested: intake.LogbookIntake.*
AddedBlock add_recording(logbook::Logbook& logbook, const Recording& recording, const shot::FindSettings& find,
                         const BlockPlace& place);

/// Keeps a shot that the finder missed, with its loud edge at `edge_s` of its block's recording, measures it, and keeps that a person
/// said so; returns the shot's id. `file`: where the recording is now; nullopt: where it was. RequestFailure: no such block, a
/// time outside the recording, within 80 ms of a known shot (MeasureSettings::hit_window_s) or with no sudden rise within 50 ms, or
/// another recording than the block's: the sound of every known shot must be at its place in it, -20 dB off at most. FileFailure: the
/// recording can't be read. Tested: intake.MissedShot.*
std::int64_t add_missed_shot(logbook::Logbook& logbook, std::int64_t block, double edge_s, const std::optional<std::string>& file);

/// Takes the last correction of a shot back: one that was said to be missed is taken out again, one that was said to be none is left out
/// for the reason it had before or counts again, an edge is where it was found and the shot measured again. RequestFailure: as
/// Logbook::undo_correction and remove_missed_shot. Tested: intake.MissedShot.*
logbook::Correction::Kind take_back_correction(logbook::Logbook& logbook, std::int64_t shot_id);

/// Measures one kept shot again and keeps its numbers.
void measure_again(logbook::Logbook& logbook, std::int64_t shot_id);

/// Measures a kept shot again from its clip; the same version gives the same numbers. What only the whole recording showed
/// (findings of the block, and those of the shot that are not of its clip's origin) is taken over as it is kept; what an earlier edge
/// or an earlier version found in the clip goes.
shot::Shot remeasured(const logbook::Logbook& logbook, const logbook::KeptBlock& block, const logbook::KeptShot& kept);

}  // namespace ringfall::intake
