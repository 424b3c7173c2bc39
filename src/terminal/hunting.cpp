// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "base/failure.h"
#include "base/nearest.h"
#include "base/text.h"
#include "base/units.h"
#include "compare/distance_level.h"
#include "compare/logbook_session.h"
#include "intake/kept_clip.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/planning_json.h"
#include "terminal/text_table.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kHuntingWidth = 100;
constexpr double kHighTo_hz = 16000.0;

/// How the level came about: shots, scatter, what was left out, how far up the high band goes.
std::vector<std::string> basis(const compare::LevelAtMark& heard, const compare::DistanceEstimate& estimate) {
  std::vector<std::string> sentences;
  if (heard.deviation_db) {
    sentences.push_back(fmt::format("The sound exposure of the {} scatters by {:.1f} dB (standard deviation); the level is the mean of their "
                                    "energies.", counted(heard.shots, "shot"), *heard.deviation_db));
  } else {
    sentences.push_back("One shot only: how shots scatter is not known.");
  }
  if (heard.other_scale > 0) {
    sentences.push_back(fmt::format("{} of sessions without a calibration {} left out: levels of two scales have no mean.",
                                    counted(heard.other_scale, "shot"), heard.other_scale == 1 ? "is" : "are"));
  }
  if (!estimate.high_to_hz) {
    sentences.push_back("The sample rate holds no octave from 2 kHz up: there is no high band.");
  } else if (*estimate.high_to_hz < kHighTo_hz) {
    sentences.push_back(fmt::format("The high band ends with the octave at {:g} kHz instead of 16 kHz: the sample rate of a shot holds no more.",
                                    *estimate.high_to_hz / 1000.0));
  }
  return sentences;
}

/// The last session in which the set-up was shot.
logbook::Conditions last_session(const logbook::Logbook& book, const compare::Session& session, const std::string& setup) {
  std::int64_t last = 0;
  for (const auto* block : session.kept()) {
    if (block->setup == setup) last = std::max<std::int64_t>(last, block->session);
  }
  return book.conditions(last);
}

/// The air, and whose word it is.
struct SaidAir {
  compare::Air air;
  AirWords words;
};

double taken(std::optional<double> asked, std::optional<double> session, double assumed, AirFrom& from) {
  from = asked ? AirFrom::asked : session ? AirFrom::session : AirFrom::assumed;
  return asked ? *asked : session.value_or(assumed);
}

/// What was not said of the air is that of the session. RequestFailure: the estimate is not made for such air.
SaidAir air_for(const HuntingRequest& request, const logbook::Conditions& session) {
  SaidAir said;
  said.words.session = session.session;
  compare::Air& air = said.air;
  air.temperature_c = taken(request.temperature_c, session.temperature_c, kAssumedTemperature_c, said.words.temperature);
  air.humidity_percent = taken(request.humidity_percent, session.humidity_percent, compare::kAssumedHumidity_percent, said.words.humidity);
  air.pressure_kpa = request.pressure_kpa;
  if (air.temperature_c < kColdest_c || air.temperature_c > kWarmest_c) {
    throw RequestFailure(fmt::format("session {} was shot at {:g} C, and the estimate is made for {:g} to {:g} C; give --temperature",
                                     session.session, air.temperature_c, kColdest_c, kWarmest_c));
  }
  if (air.humidity_percent < kDriest_percent) {
    throw RequestFailure(fmt::format("session {} was shot at {:g} % humidity, and the estimate is made for {:g} % and more; give "
                                     "--humidity", session.session, air.humidity_percent, kDriest_percent));
  }
  return said;
}

std::string whose_word(AirFrom from, std::int64_t session) {
  if (from == AirFrom::session) return fmt::format(" (session {})", session);
  return from == AirFrom::assumed ? " (assumed: nobody said it)" : "";
}

std::string air_text(const HuntingRequest& request, const compare::DistanceQuestion& question, const compare::LevelAtMark& heard,
                     const AirWords& words) {
  const auto& air = question.air;
  return fmt::format("The microphone is taken to stand {} from the grip (else say --mark). Air: {}{}, {:g} % humidity{}, {:g} kPa. Levels {}.",
                     request.units == Units::archers ? distance_text(question.mark_m, request.units) : fmt::format("{:g} m", question.mark_m),
                     temperature_text(air.temperature_c, request.units), whose_word(words.temperature, words.session), air.humidity_percent,
                     whose_word(words.humidity, words.session), air.pressure_kpa, heard.calibrated ? "re 20 uPa" : "re full scale");
}

std::string hunting_text(const HuntingRequest& request, const compare::DistanceQuestion& question, const compare::LevelAtMark& heard,
                         const AirWords& words, const std::vector<compare::DistanceEstimate>& estimates, const Ink& ink) {
  const bool yards = request.units == Units::archers;
  std::string out = ink.strong(fmt::format("'{}' at a distance", request.setup)) +
                    ink.quiet(fmt::format("  (from {})", counted(heard.shots, "shot"))) + "\n  " +
                    wrapped(air_text(request, question, heard, words), kHuntingWidth, 2) + "\n";
  TextTable table;
  table.add_column("distance", yards ? "yd" : "m");
  table.add_column("exposure", "dB(A)");
  table.add_column("2-16 kHz", "dB");
  table.add_column("spreading", "dB");
  table.add_column("air", "dB(A)");
  table.add_column("sound after", "");
  table.add_column("arrow after", "");
  table.add_column("between", "");
  for (const auto& estimate : estimates) {
    const auto arrow = estimate.arrow_s;
    table.add_row({plain_number(yards ? estimate.distance_m / kYard_m : estimate.distance_m, 1), plain_number(estimate.level_a_db, 1),
                   plain_number(estimate.level_high_db, 1), plain_number(estimate.spreading_db, 1),
                   plain_number(estimate.lost_in_air_a_db, 1), duration_text(estimate.sound_s),
                   arrow ? duration_text(*arrow) : "-", arrow ? duration_text(*arrow - estimate.sound_s) : "-"});
  }
  const auto lines = table.lines(2);
  for (std::size_t k = 0; k < lines.size(); ++k) out += k < 2 ? ink.quiet(lines[k]) : lines[k];
  const auto add = [&](const char* title, const std::vector<std::string>& sentences) {
    out += "\n" + ink.strong(title) + "\n";
    for (const auto& sentence : sentences) out += "  - " + wrapped(sentence, kHuntingWidth, 4) + "\n";
  };
  add("What the level rests on", basis(heard, estimates.front()));
  add("Not modelled", compare::not_modelled());
  add("Before you hunt", compare::hunting_cautions());
  return out;
}

}  // namespace

int hunting(const HuntingRequest& request) {
  const logbook::Logbook book(request.logbook);
  const auto session = compare::logbook_session(book);
  const auto names = session.setups();
  if (names.empty()) {
    std::fputs("ringfall: no shot that counts is in the logbook yet\n", stderr);
    return kNotMeasured;
  }
  if (std::find(names.begin(), names.end(), request.setup) == names.end()) {
    throw RequestFailure(fmt::format("there is no set-up '{}' with shots that count{}", request.setup, did_you_mean(request.setup, names)));
  }
  const auto heard = *compare::level_at_mark(session, request.setup, {}, [&](std::size_t block, std::size_t shot) {
    const auto& own = session.blocks[block];
    return std::optional(compare::ScaledClip{intake::kept_clip(book, own.shots[shot].id), {book.conditions(own.session).full_scale_db_spl}});
  });
  compare::DistanceQuestion question;
  question.at_mark = heard.octaves;
  question.mark_m = request.mark_m;
  const SaidAir said = air_for(request, last_session(book, session, request.setup));
  question.air = said.air;
  question.arrow_speed_m_s = request.arrow_speed_m_s ? request.arrow_speed_m_s : heard.arrow_speed_m_s;
  std::vector<compare::DistanceEstimate> estimates;
  for (const double distance_m : request.distances_m) {
    if (const auto estimate = compare::estimate_at(question, distance_m)) estimates.push_back(*estimate);
  }
  if (estimates.empty()) {
    std::fputs("ringfall: no shot of this set-up has a level that counts\n", stderr);
    return kNotMeasured;
  }
  const std::string out = request.json ? hunting_json(request, question, heard, said.words, estimates)
                                       : hunting_text(request, question, heard, said.words, estimates, Ink::for_standard_output());
  std::fwrite(out.data(), 1, out.size(), stdout);
  return kDone;
}

}  // namespace ringfall::terminal
