// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <map>

#include "base/failure.h"
#include "base/nearest.h"
#include "base/text.h"
#include "base/units.h"
#include "compare/distance_estimate.h"
#include "compare/logbook_session.h"
#include "intake/kept_clip.h"
#include "shot/octave_exposure.h"
#include "shot/pressure_clip.h"
#include "stats/summary.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/planning_json.h"
#include "terminal/text_table.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kHuntingWidth = 100;

/// A set-up's shots in octaves: the mean of their energies.
struct SetUpOctaves {
  std::map<double, std::vector<double>> energies;  ///< by nominal frequency
  std::size_t shots = 0;
  bool calibrated = true;
  std::vector<double> speeds_m_s;
};

SetUpOctaves octaves_of(const logbook::Logbook& book, const compare::Session& session, const std::string& setup) {
  SetUpOctaves heard;
  const shot::MeasureSettings settings;
  for (const auto* block : session.kept()) {
    if (block->setup != setup) continue;
    const shot::Scale scale{book.conditions(block->session).full_scale_db_spl};
    for (const auto& entry : block->shots) {
      if (!entry.shot.levels.exposure_db) continue;  // a finding voided its levels
      const auto clip = intake::kept_clip(book, entry.id);
      const shot::PressureClip pressure(clip, scale);
      for (const auto& band : shot::octave_exposures(pressure, shot::undisturbed_s(clip, settings), settings)) {
        heard.energies[band.nominal_hz].push_back(db_to_power(band.exposure_db + scale.printed_offset_db()));
      }
      ++heard.shots;
      heard.calibrated = heard.calibrated && scale.full_scale_db_spl.has_value();
      if (entry.shot.arrow_speed_m_s) heard.speeds_m_s.push_back(*entry.shot.arrow_speed_m_s);
    }
  }
  return heard;
}

std::string hunting_text(const HuntingRequest& request, const compare::DistanceQuestion& question, const SetUpOctaves& heard,
                         const std::vector<compare::DistanceEstimate>& estimates, const Ink& ink) {
  std::string out = ink.strong(fmt::format("'{}' at a distance", request.setup)) +
                    ink.quiet(fmt::format("  (from {} shots at {:g} m; {:g} C, {:g} %, {:g} kPa; levels {})", heard.shots, question.mark_m,
                                          question.air.temperature_c, question.air.humidity_percent, question.air.pressure_kpa,
                                          heard.calibrated ? "re 20 uPa" : "re full scale")) +
                    "\n";
  TextTable table;
  table.add_column("distance", "m");
  table.add_column("exposure", "dB(A)");
  table.add_column("2-8 kHz", "dB");
  table.add_column("spreading", "dB");
  table.add_column("air", "dB(A)");
  table.add_column("sound after", "");
  table.add_column("arrow after", "");
  table.add_column("between", "");
  for (const auto& estimate : estimates) {
    const auto arrow = estimate.arrow_s;
    table.add_row({plain_number(estimate.distance_m, 1), plain_number(estimate.level_a_db, 1),
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
  add("Not modelled", compare::not_modelled());
  add("Before you hunt", compare::hunting_cautions());
  return out;
}

}  // namespace

int hunting(const HuntingRequest& request) {
  const logbook::Logbook book(request.logbook);
  const auto session = compare::logbook_session(book);
  const auto names = session.setups();
  if (std::find(names.begin(), names.end(), request.setup) == names.end()) {
    throw RequestFailure(fmt::format("there is no set-up '{}' with shots that count{}", request.setup, did_you_mean(request.setup, names)));
  }
  const auto heard = octaves_of(book, session, request.setup);
  compare::DistanceQuestion question;
  for (const auto& [nominal_hz, energies] : heard.energies) {
    question.at_mark.push_back({nominal_hz, power_to_db(*stats::mean(energies))});
  }
  question.mark_m = request.mark_m;
  question.air = {request.temperature_c, request.humidity_percent, request.pressure_kpa};
  question.arrow_speed_m_s = request.arrow_speed_m_s ? request.arrow_speed_m_s : stats::mean(heard.speeds_m_s);
  std::vector<compare::DistanceEstimate> estimates;
  for (const double distance_m : request.distances_m) {
    if (const auto estimate = compare::estimate_at(question, distance_m)) estimates.push_back(*estimate);
  }
  if (estimates.empty()) {
    std::fputs("ringfall: no shot of this set-up has a level that counts\n", stderr);
    return kNotMeasured;
  }
  const std::string out = request.json ? hunting_json(request, question, heard.shots, heard.calibrated, estimates)
                                       : hunting_text(request, question, heard, estimates, Ink::for_standard_output());
  std::fwrite(out.data(), 1, out.size(), stdout);
  return kDone;
}

}  // namespace ringfall::terminal
