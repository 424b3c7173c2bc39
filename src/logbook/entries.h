// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "shot/clip.h"
#include "shot/shot.h"

namespace ringfall::logbook {

/// What a logbook holds, as the rest of the program sees it. Shots and blocks go by the numbers people see: both count
/// from 1 over the whole logbook.

/// The evening and its chain.
struct Conditions {
  std::string bow;
  std::string started_at;  ///< UTC, ISO 8601; set by the logbook
  std::string place;
  std::optional<double> distance_m;
  double temperature_c = 20.0;
  std::string chain;  ///< microphone, recorder, gain: free words
  std::optional<double> full_scale_db_spl;
};

struct SetUp {
  std::string name;
  std::string changed;  ///< what differs from the baseline
  bool baseline = false;
  std::optional<double> added_mass_kg;
};

/// A block about to be kept.
struct NewBlock {
  std::string setup;
  std::string file;  ///< where its sound comes from
  double sample_rate_hz = 0.0;
  std::string note;
  std::string dropped;  ///< why it is left out; empty: it is not
  std::vector<Finding> findings;
};

/// A shot's sound, coded, with the places in it as in shot::Clip.
struct CodedClip {
  int number = 0;        ///< of the shot in its recording
  double onset_s = 0.0;  ///< in its recording
  std::string coding;    ///< "flac" or "wav"
  std::string bytes;
  shot::Clip places;     ///< everything but the samples
};

/// Ratings 0 .. 10 and words; at least one of them.
struct Comment {
  std::string said_at;  ///< UTC, ISO 8601; set by the logbook
  std::optional<double> loud;
  std::optional<double> hum;
  std::optional<double> ping;
  std::optional<double> feel;
  std::string words;
};

struct KeptShot {
  std::int64_t id = 0;      ///< its number in the logbook
  /// Number in its recording, edge, end of tail, the single numbers, tones and findings; what else a Shot holds
  /// (hits, octave decays, buzz) is not kept but can be had again from the clip.
  shot::Shot shot;
  std::string analyser;     ///< version that measured it; empty: kept but not measured yet
  std::string dropped;
  std::vector<Comment> comments;
};

struct KeptBlock {
  std::int64_t number = 0;
  std::string setup;
  std::string file;
  double sample_rate_hz = 0.0;
  std::string note;
  std::string dropped;
  std::vector<Finding> findings;
  std::vector<KeptShot> shots;
};

}  // namespace ringfall::logbook
