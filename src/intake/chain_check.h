// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_source.h"
#include "base/finding.h"

namespace ringfall::intake {

/// What the chain from microphone to samples is good for, from some seconds of quiet, one clap (or a shot) and quiet again.
struct ChainCheck {
  bool heard_clap = false;
  std::optional<double> floor_before_db;  ///< unweighted, re full scale (full-scale square wave = 0 dB)
  std::optional<double> floor_after_db;   ///< the same, two seconds and more after the clap: a constant gain gives the same
  std::optional<double> clap_peak_db;
  std::optional<double> highest_hz;       ///< up to here the clap stands 6 dB above the floor
  std::optional<double> room_decay_s;     ///< 60 dB time of the clap in the room, median of the octaves 500 Hz to 4 kHz
  std::optional<double> clock_rate_hz;    ///< samples a second by the computer's clock
  std::vector<Finding> findings;          ///< what it can't be trusted with, and why
};

struct ChainCheckTimes {
  double quiet_s = 4.0;   ///< before the clap is asked for
  double wait_s = 20.0;   ///< for the clap
  double after_s = 4.0;   ///< quiet after it
};

/// Tells the person what to do: called with "keep quiet", "clap", "keep quiet" as sentences.
using Prompt = std::function<void(const std::string&)>;

/// Runs the check on a running source. DeviceFailure: the source is lost on the way. Takes the times given, in sound.
/// Source: own, docs/measures/listening.md#chain-check. Tested: intake.ChainCheck*.*
ChainCheck check_chain(audio::SoundSource& source, const ChainCheckTimes& times, const Prompt& prompt);

/// One line a quantity: "levels: good", "ping: doubtful, because ...".
std::vector<std::string> chain_verdicts(const ChainCheck& check);

/// Level of a steady tone heard from the source for `length_s`, dB re full scale; nullopt: no clear tone near `tone_hz`.
std::optional<double> hear_check_tone(audio::SoundSource& source, double tone_hz, double length_s);

}  // namespace ringfall::intake
