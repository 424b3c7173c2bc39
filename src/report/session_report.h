// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/comparison.h"
#include "compare/session.h"
#include "report/said_agreement.h"
#include "report/setup_sound.h"
#include "report/tone_change.h"

namespace ringfall::report {

/// What a report says, as values: each face (page, paper) only sets it. Nothing in it depends on the day or the machine.

/// One recording and its chain.
struct RecordingFacts {
  std::string file;
  std::string format;
  double sample_rate_hz = 0.0;
  std::optional<int> channel;   ///< measured, counted from 1; nullopt: not known, as what follows
  std::optional<int> channels;
  std::optional<double> duration_s;
  bool calibrated = false;
};

/// Those of a logbook's blocks: what is known of the recordings that its shots were cut from.
std::vector<RecordingFacts> kept_recordings(const compare::Session& session);

/// A typical shot to listen to: the bytes of a whole FLAC file, which every browser plays.
struct SoundClip {
  std::string setup;
  std::string file;  ///< the recording it is from
  int shot = 0;
  std::string flac;
};

/// What the report is made from.
struct ReportSource {
  compare::Session session;
  compare::Comparison comparison;
  std::vector<SetUpSound> sounds;  ///< any order; a set-up may be missing
  std::vector<compare::SetUpTones> tones;  ///< of TonePool::read, as given to compare_setups; may be empty
  std::vector<RecordingFacts> recordings;
  std::vector<SoundClip> clips;
  double clip_gain_db = 0.0;       ///< the same for all clips
  std::vector<std::string> complaints;  ///< recordings that could not be used
};

/// A set-up's shots: how many there are, how many count, what was left out and why.
struct SetUpSummary {
  std::string name;
  std::vector<std::string> blocks;
  std::vector<std::string> notes;
  std::size_t shots = 0;
  std::size_t kept = 0;  ///< with a value of the main number
  std::vector<std::string> left_out;
};

struct SessionReport {
  std::string title;
  std::vector<std::string> verdicts;  ///< one sentence a set-up, the main number
  const shot::Number* main_number = nullptr;
  std::string level_reference;        ///< "re full scale", "re 20 uPa", or that sessions differ in it
  bool calibrated = false;
  bool air_assumed = false;           ///< an arrow speed is reckoned for air of 20 C: nobody said how warm it was
  ReportSource source;                ///< sounds: the baseline first, one a set-up
  std::vector<SetUpSummary> setups;   ///< the baseline first
  std::vector<std::vector<ToneChange>> tone_changes;  ///< one a set-up other than the baseline; the comparison's
  std::vector<std::string> sound_sentences;           ///< ring-down and tones, what changed
  std::vector<Agreement> agreements;
  std::vector<std::string> doubts;
};

/// Puts together what the faces show. Tests: report.SessionReport.*
SessionReport session_report(ReportSource source);

}  // namespace ringfall::report
