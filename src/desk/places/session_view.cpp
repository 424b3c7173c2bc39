// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/session_view.h"

#include <algorithm>

#include "base/failure.h"
#include "base/units.h"
#include "desk/parts/parts.h"
#include "desk/parts/words.h"
#include "work/limits.h"

namespace ringfall::desk {

namespace {

/// "20" in archers' units is 20 yards, as the hint in the field has it.
std::string in_units(const std::string& text, const char* unit) {
  const bool bare = text.find_first_not_of("0123456789.+- ") == std::string::npos;
  return bare ? text + unit : text;
}

double within(double value, work::Limits limits, const char* sentence) {
  if (!limits.hold(value)) throw RequestFailure(sentence);
  return value;
}

}  // namespace

void SessionFields::draw(const Stage& stage, float width) {
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
  conditions.distance_m.reset();
  conditions.temperature_c.reset();
  if (!distance.empty()) {
    conditions.distance_m = within(parse_distance_m(in_units(distance, archers ? "yd" : "m")), work::kTargetDistance_m,
                                   "the distance to the target must be between 1 and 150 m (164 yd)");
  }
  if (!temperature.empty()) {
    conditions.temperature_c = within(parse_temperature_c(in_units(temperature, archers ? "F" : "C")), work::kAir_c,
                                      "the air must be between -40 and 60 C (-40 and 140 F)");
  }
}

void SessionView::begin(const logbook::Conditions& last, bool archers) {
  fields_ = {};
  fields_.place = last.place;
  fields_.chain = last.chain;
  fields_.blind = last.blind;
  fields_.archers = archers;
  if (last.distance_m) fields_.distance = distance_words(*last.distance_m, archers);
  before_ = fields_;
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
  fields_.draw(stage, width);
  const auto& last = desk.book->conditions;
  if (last.full_scale_db_spl || !last.microphone.empty()) {
    paragraph(stage, stage.fonts.small, stage.palette.muted,
              same_chain() ? "Its calibration and microphone are those of the session before: change the line above if they are not, and the gain too."
                           : "Another chain: the calibration and microphone of the session before do not hold for it; levels are re full scale until it "
                             "is calibrated.",
              width);
  }
  gap(stage, 8.0F);
  if (push(stage, "Start the session", {.kind = Push::main, .icon = Icon::tick})) {
    try {
      logbook::Conditions next;  // its air, its tone and its remark are its own
      next.bow = last.bow;
      if (same_chain()) {
        next.full_scale_db_spl = last.full_scale_db_spl;
        next.microphone = last.microphone;
        next.device = last.device;
      }
      fields_.apply(next);
      if (fields_.distance == before_.distance) next.distance_m = last.distance_m;  // as it is kept, not as it was rounded for the field
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
