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

/// What a logbook holds, as the rest of the program sees it; all SI. Sessions, blocks and shots go by the numbers people see:
/// each counts from 1 over the whole logbook. Empty words and nullopt: not said.

/// Something on the bow.
struct Part {
  enum class Kind { mass, damper, silencer, other };
  Kind kind = Kind::other;
  std::string what;   ///< "rubber damper"
  std::string place;  ///< "under the grip"
  std::optional<double> mass_kg;
};

/// What is on the bow and how it is set. In a set-up: what is not said is as on the bow.
struct Fittings {
  std::optional<double> draw_weight_n;   ///< on the fingers
  std::optional<double> brace_height_m;
  std::optional<double> arrow_mass_kg;
  std::string string;
  std::string silencers;
  std::vector<Part> parts;
};

struct Bow {
  std::string name;
  Fittings fittings = {};
  std::string note = {};
};

/// A session: the evening, the place, the air and the chain.
struct Conditions {
  std::string bow;         ///< its name; a session is about one bow
  std::string started_at;  ///< UTC, ISO 8601; empty when a session is started: now
  std::string place;
  std::optional<double> distance_m;
  std::optional<double> temperature_c;
  std::string chain;  ///< recorder, gain, placing: free words
  std::optional<double> full_scale_db_spl;
  std::optional<double> humidity_percent = {};
  std::string microphone = {};
  std::string device = {};               ///< what recorded it, as the system names it
  std::optional<double> check_tone_db = {};  ///< level at which the same check tone came out, as levels are printed
  bool blind = false;                    ///< numbers stay hidden until a comment is in
  std::string note = {};
  std::int64_t session = 0;              ///< its number; set by the logbook
};

/// How warm the air is taken to be: as said, else kAssumedTemperature_c.
double reckoned_temperature_c(const Conditions& conditions);

struct SetUp {
  std::string name;
  std::string changed;  ///< what differs from the baseline
  bool baseline = false;
  std::optional<double> added_mass_kg;  ///< over the bow as it is; nullopt: the sum of the parts
  std::string bow = {};  ///< empty: that of the last session
  Fittings fittings = {};
  std::string note = {};
};

/// What the set-up adds to the bow: stated, else the sum of its parts with a mass, else nullopt.
std::optional<double> added_mass_kg(const SetUp& setup);

/// A block about to be kept.
struct NewBlock {
  std::string setup;
  std::string file;  ///< where its sound comes from
  double sample_rate_hz = 0.0;
  std::string note;
  std::string dropped;  ///< why it is left out; empty: it is not
  std::vector<Finding> findings;
  std::int64_t session = 0;  ///< 0: the last one
  std::optional<int> channel = {};  ///< measured, counted from 1
};

/// A shot's sound, coded, with the places in it as in shot::Clip.
struct CodedClip {
  int number = 0;        ///< of the shot in its recording
  double onset_s = 0.0;  ///< in its recording
  std::string coding;    ///< "flac" or "wav"
  std::string bytes;
  shot::Clip places;     ///< everything but the samples
};

/// Where a sound is kept.
struct SoundPlace {
  std::int64_t shot = 0;  ///< id
  std::int64_t block = 0;
  std::string setup;
};

/// Ratings 0 .. 10 and words; at least one of them.
struct Comment {
  std::string said_at;  ///< UTC, ISO 8601; set by the logbook
  std::optional<double> loud;
  std::optional<double> hum;
  std::optional<double> ping;
  std::optional<double> feel;
  std::string words;
  std::int64_t id = 0;          ///< set by the logbook
  std::string changed_at = {};  ///< empty: never
  bool blind = false;           ///< as it was said before the numbers could be seen; set by the logbook
};

/// What several comments on one thing say: of each rating the last one given, and all words, in their order.
Comment taken_together(const std::vector<Comment>& comments);

/// What a person says against the finder.
struct Correction {
  enum class Kind { not_a_shot, missed_shot, moved_edge };
  Kind kind = Kind::not_a_shot;
  std::int64_t block = 0;
  std::optional<std::int64_t> shot;  ///< id; of a missed shot: once its sound is kept
  std::optional<double> found_s;     ///< where the finder put the edge, in the recording
  std::optional<double> edge_s;      ///< where it is
  std::string said_at;               ///< set by the logbook
};

struct KeptShot {
  std::int64_t id = 0;      ///< its number in the logbook
  shot::Shot shot;
  std::string analyser;     ///< version that measured it; empty: kept but not measured yet
  std::string dropped;
  std::vector<Comment> comments;
  bool unreadable = false;  ///< the file is damaged under its sound: its numbers are there, it is dropped for that reason
};

struct KeptBlock {
  std::int64_t number = 0;
  std::string setup;
  std::string file;
  double sample_rate_hz = 0.0;
  std::string note;
  std::string dropped;
  std::vector<Finding> findings;
  std::vector<KeptShot> shots;  ///< in time order
  std::int64_t session = 0;
  std::string bow = {};
  std::optional<int> channel = {};
  std::vector<Comment> comments = {};  ///< on the block as a whole
  bool blind = false;                  ///< of its session
};

/// Must the shot's numbers stay hidden? In a blind session, until the shot or its block has a comment.
bool numbers_hidden(const KeptBlock& block, const KeptShot& shot);

}  // namespace ringfall::logbook
