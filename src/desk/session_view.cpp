// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/session_view.h"

#include <algorithm>

#include "base/failure.h"
#include "base/units.h"
#include "desk/parts.h"
#include "desk/words.h"

namespace ringfall::desk {

void SessionFields::draw(const Stage& stage, bool archers, float width) {
  const auto ask = [&](const char* word, const char* name, const char* hint, std::string& text) {
    line(stage, stage.fonts.small, stage.palette.muted, word);
    field(stage, name, hint, text, width);
  };
  ask("Place", "place", "indoor range, lane 3", place);
  ask("Distance to the target", "distance", archers ? "20 yd" : "18 m", distance);
  ask("Air", "temperature", archers ? "68F" : "20 C", temperature);
  ask("Microphone and recorder, gain", "chain", "USB microphone, gain at 3 o'clock", chain);
  on_off(stage, "Blind: numbers stay hidden until I have said what I heard##blind", blind);
}

void SessionFields::apply(logbook::Conditions& conditions) const {
  conditions.place = place;
  conditions.chain = chain;
  conditions.blind = blind;
  if (!distance.empty()) conditions.distance_m = parse_distance_m(distance);
  if (!temperature.empty()) conditions.temperature_c = parse_temperature_c(temperature);
}

void SessionView::begin(const logbook::Conditions& last, bool archers) {
  fields_ = {};
  fields_.place = last.place;
  fields_.chain = last.chain;
  fields_.blind = last.blind;
  if (last.distance_m) fields_.distance = distance_words(*last.distance_m, archers);
}

bool SessionView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet sheet(stage, "session", size);
  const float width = std::min(size.x - stage.px(34.0F), stage.px(620.0F));
  heading(stage, "Start a new session");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "Another day, another place or another chain. What is added or heard from now on belongs to it; set-ups are compared within a "
            "session, and the season follows them from one to the next.",
            width);
  gap(stage, 4.0F);
  fields_.draw(stage, desk.preferences.archers_units, width);
  gap(stage, 8.0F);
  if (push(stage, "Start the session", {.kind = Push::main, .icon = Icon::tick})) {
    try {
      const auto& last = desk.book->conditions;
      logbook::Conditions next;  // its air, its tone and its remark are its own
      next.bow = last.bow;
      next.distance_m = last.distance_m;
      next.full_scale_db_spl = last.full_scale_db_spl;
      next.microphone = last.microphone;
      next.device = last.device;
      fields_.apply(next);
      desk.start_session(next);
      return true;
    } catch (const Failure& failure) {
      desk.say(failure.what(), true);
    }
  }
  ImGui::SameLine();
  return push(stage, "Not now##session", {.kind = Push::quiet});
}

}  // namespace ringfall::desk
