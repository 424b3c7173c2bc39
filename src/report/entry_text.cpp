// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/entry_text.h"

#include <fmt/format.h>

#include "base/local_time.h"

namespace ringfall::report {
namespace {

/// A list of remarks that grows.
class Remarks {
 public:
  void add(const std::string& part) {
    if (!part.empty()) text_ += (text_.empty() ? "" : ", ") + part;
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

std::string part_text(const logbook::Part& part, Units units) {
  static constexpr const char* kKinds[] = {"mass", "damper", "silencer", ""};
  std::string text = part.what.empty() ? kKinds[static_cast<std::size_t>(part.kind)] : part.what;
  if (!part.place.empty()) text += (text.empty() ? "" : " at ") + part.place;
  if (part.mass_kg) text += (text.empty() ? "" : " of ") + mass_text(*part.mass_kg, units);
  return text;
}

}  // namespace

std::string said_text(const std::vector<logbook::Comment>& comments) {
  Remarks all;
  for (const auto& said : comments) {
    if (said.loud) all.add(fmt::format("loud {:g}", *said.loud));
    if (said.hum) all.add(fmt::format("hum {:g}", *said.hum));
    if (said.ping) all.add(fmt::format("ping {:g}", *said.ping));
    if (said.feel) all.add(fmt::format("feel {:g}", *said.feel));
    if (!said.words.empty()) all.add("\"" + said.words + "\"");
  }
  return all.text();
}

std::string fittings_text(const logbook::Fittings& fittings, Units units) {
  Remarks all;
  if (fittings.draw_weight_n) all.add(draw_weight_text(*fittings.draw_weight_n, units) + " on the fingers");
  if (fittings.brace_height_m) all.add("brace height " + brace_text(*fittings.brace_height_m, units));
  if (fittings.arrow_mass_kg) all.add("arrow " + arrow_mass_text(*fittings.arrow_mass_kg, units));
  if (!fittings.string.empty()) all.add("string " + fittings.string);
  if (!fittings.silencers.empty()) all.add("silencers " + fittings.silencers);
  for (const auto& part : fittings.parts) all.add(part_text(part, units));
  return all.text();
}

std::string bow_text(const logbook::Bow& bow, Units units) {
  Remarks all;
  all.add(fittings_text(bow.fittings, units));
  all.add(bow.note);
  return all.text();
}

std::string setup_text(const logbook::SetUp& setup, Units units) {
  Remarks all;
  all.add(setup.changed);
  all.add(fittings_text(setup.fittings, units));
  if (const auto mass_kg = added_mass_kg(setup)) all.add("adds " + mass_text(*mass_kg, units));
  all.add(setup.note);
  return all.text();
}

std::string session_text(const logbook::Conditions& conditions, Units units) {
  Remarks all;
  all.add(conditions.bow);
  all.add(local_time_text(conditions.started_at));
  all.add(conditions.place);
  if (conditions.distance_m) all.add(distance_text(*conditions.distance_m, units));
  if (conditions.temperature_c) all.add(temperature_text(*conditions.temperature_c, units));
  if (conditions.humidity_percent) all.add(fmt::format("{:g} % humidity", *conditions.humidity_percent));
  all.add(conditions.full_scale_db_spl ? "levels re 20 uPa" : "levels re full scale (not calibrated)");
  if (conditions.check_tone_db) all.add(fmt::format("check tone {:g} dB", *conditions.check_tone_db));
  if (conditions.blind) all.add("blind: numbers after the comment");
  all.add(conditions.microphone);
  all.add(conditions.device);
  all.add(conditions.chain);
  all.add(conditions.note);
  return all.text();
}

}  // namespace ringfall::report
