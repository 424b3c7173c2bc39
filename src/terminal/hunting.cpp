// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "base/text.h"
#include "base/units.h"
#include "compare/logbook_session.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/output.h"
#include "terminal/planning_json.h"
#include "terminal/text_table.h"
#include "terminal/verbs.h"
#include "work/bow_choice.h"
#include "work/kept_sounds.h"

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

using work::AirFrom;

std::string whose_word(AirFrom from, std::int64_t session) {
  if (from == AirFrom::session) return fmt::format(" (session {})", session);
  return from == AirFrom::assumed ? " (assumed: nobody said it)" : "";
}

std::string air_text(const HuntingRequest& request, const work::Afar& afar) {
  const auto& [heard, question, words, at] = afar;
  const auto& air = question.air;
  return fmt::format("The microphone is taken to stand {} from the grip (else say --mark). Air: {}{}, {:g} % humidity{}, {:g} kPa. Levels {}.",
                     request.units == Units::archers ? distance_text(question.mark_m, request.units) : fmt::format("{:g} m", question.mark_m),
                     temperature_text(air.temperature_c, request.units), whose_word(words.temperature, words.session), air.humidity_percent,
                     whose_word(words.humidity, words.session), air.pressure_kpa, heard.calibrated ? "re 20 uPa" : "re full scale");
}

std::string hunting_text(const HuntingRequest& request, const work::Afar& afar, const Ink& ink) {
  const bool yards = request.units == Units::archers;
  std::string out = ink.strong(fmt::format("'{}' at a distance", request.setup)) +
                    ink.quiet(fmt::format("  (from {})", counted(afar.heard.shots, "shot"))) + "\n  " +
                    wrapped(air_text(request, afar), kHuntingWidth, 2) + "\n";
  TextTable table;
  table.add_column("distance", yards ? "yd" : "m");
  table.add_column("exposure", "dB(A)");
  table.add_column("2-16 kHz", "dB");
  table.add_column("spreading", "dB");
  table.add_column("air", "dB(A)");
  table.add_column("sound after", "");
  table.add_column("arrow after", "");
  table.add_column("between", "");
  for (const auto& estimate : afar.at) {
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
  add("What the level rests on", basis(afar.heard, afar.at.front()));
  add("Not modelled", compare::not_modelled());
  add("Before you hunt", compare::hunting_cautions());
  return out;
}

}  // namespace

int hunting(const HuntingRequest& request) {
  const logbook::Logbook book(request.logbook);
  work::need_bow(book, request.bow);
  const auto session = compare::logbook_session(book, request.bow);
  if (session.setups().empty()) {
    complain("ringfall: no shot that counts is in the logbook yet\n");
    return kNotMeasured;
  }
  const auto afar = *work::level_afar(book, session, work::setup_in(session, request.setup), request.asked, work::kept_sounds(book, session));
  if (afar.at.empty()) {
    complain("ringfall: no shot of this set-up has a level that counts\n");
    return kNotMeasured;
  }
  const std::string out = request.json ? hunting_json(request, afar) : hunting_text(request, afar, Ink::for_standard_output());
  put(out);
  return kDone;
}

}  // namespace ringfall::terminal
