// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/sessions.h"

#include <fmt/format.h>

#include "base/failure.h"

namespace ringfall::work {
namespace {

bool differs(const std::optional<std::string>& said, const std::string& before) { return said && *said != before; }

std::vector<std::string> taken_over(const logbook::Conditions& next, const SessionChange& said, bool other_bow) {
  std::vector<std::string> parts;
  if (!other_bow) parts.push_back(fmt::format("bow '{}'", next.bow));
  const auto words = [&](const char* what, const std::optional<std::string>& anew, const std::string& now) {
    if (!anew && !now.empty()) parts.push_back(fmt::format("{} '{}'", what, now));
  };
  words("place", said.place, next.place);
  if (!said.distance_m && next.distance_m) parts.push_back(fmt::format("distance {:g} m", *next.distance_m));
  words("microphone", said.microphone, next.microphone);
  words("device", said.device, next.device);
  words("chain", said.chain, next.chain);
  if (!said.full_scale_db_spl && !said.calibration.file && next.full_scale_db_spl) {
    parts.push_back(fmt::format("full scale {:g} dB", *next.full_scale_db_spl));
  }
  if (!said.blind && next.blind) parts.emplace_back("blind");
  return parts;
}

}  // namespace

NextSession next_session(const logbook::Conditions& last, const std::string& bow, const SessionChange& said) {
  NextSession result;
  logbook::Conditions& next = result.conditions;
  next = last;
  if (!bow.empty()) next.bow = bow;
  next.started_at.clear();
  next.temperature_c.reset();
  next.humidity_percent.reset();
  next.check_tone_db.reset();
  next.note.clear();
  result.other_chain = differs(said.microphone, last.microphone) || differs(said.device, last.device) || differs(said.chain, last.chain);
  if (result.other_chain) {
    next.full_scale_db_spl.reset();
    next.microphone.clear();
    next.device.clear();
  }
  apply(said, next);
  result.calibration_lost = result.other_chain && last.full_scale_db_spl && !next.full_scale_db_spl;
  result.taken_over = taken_over(next, said, next.bow != last.bow);
  return result;
}

void need_session_bow(const logbook::Conditions& last, const std::string& bow) {
  if (bow.empty() || bow == last.bow) return;
  throw RequestFailure(fmt::format("the last session is with the bow '{}', and what is kept belongs to it; begin one with `ringfall session "
                                   "LOGBOOK --bow NAME` first", last.bow));
}

}  // namespace ringfall::work
