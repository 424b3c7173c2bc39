// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/plan_advice.h"

namespace ringfall::compare {

std::vector<std::string> checklist() {
  return {
      "Write the question in one sentence, name the one main number, and what difference would be worth keeping.",
      "Write down bow, draw weight on the fingers, brace height, string, arrow mass, nock, and every added mass with its place.",
      "Change one thing per comparison. Test a damper against a dummy of equal mass in the same place.",
      "One arrow, or the same three in the same order; same distance (11 m or more, so that hum can be heard out), anchor and stance.",
      "Recorder: fixed gain, no voice processing, WAV or FLAC, battery full, phone in flight mode. A test clap must stay unclipped.",
      "Six unscored arrows first, two after every change of set-up.",
      "Call plucks, collapses and arm hits before you see a number; write the reason. More than one in five: shoot again.",
      "Say or write how each shot sounded and felt before you see its numbers; best when a helper fits the set-ups unseen.",
      "Measure the brace height again half-way. Log the temperature at the start and the end.",
      "Once: take the part off and put the same part on again. What changes then is refitting, not the part.",
  };
}

std::vector<std::string> microphone_placing() {
  return {
      "About 1 m from the grip (0.7 to 1.5 m), behind the shooting line, beside or behind the archer, 1.2 to 1.5 m high.",
      "On a stand of its own, not on the table with the bow; mark stand and feet with tape. At 1 m, 10 cm are 0.9 dB.",
      "The same side for all set-ups: riser and archer shade the far side.",
      "Same bay, doors, people and nets. Outdoors under 3 m/s of wind, with foam. Leave out shots with a neighbour's in them.",
  };
}

std::vector<std::string> shooting_cautions() {
  return {
      "Never loose the string without an arrow, not even to test the sound.",
      "Nobody and no microphone forward of the shooting line; set and fetch only at the range's signal.",
      "After every change: bolts, limbs, string seating, brace height; nothing in the path of string or arrow; first shot close to a "
      "sound butt.",
      "No arrow lighter than the bow's maker allows.",
      "Added mass loads shoulder and wrist: go up in small steps and stop at pain.",
      "A new crack, creak or tick, or a shot suddenly 3 dB louder: stop and inspect.",
  };
}

}  // namespace ringfall::compare
