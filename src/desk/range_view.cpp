// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/range_view.h"

#include <algorithm>

#include "audio/paced_file.h"
#include "compare/plan_advice.h"
#include "desk/parts.h"
#include "desk/setup_mark.h"
#include "desk/words.h"
#include "intake/chain_judgement.h"

namespace ringfall::desk {

ChainWords chain_words(const intake::MeterReading& reading, std::optional<double> shot_peak_db) {
  const auto finding = intake::judge_meter(reading, shot_peak_db);
  if (!finding) return {"The chain is fine.", false};
  return {finding->sentence, true};
}

void RangeView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  if (desk.hearing.ears) while_listening(desk, stage, size);
  else before(desk, stage, size);
}

void RangeView::chain(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "chain", size);
  heading(stage, "Check the chain");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "From microphone to numbers: a few seconds of quiet, one clap at the bow's place, quiet again. Ringfall says what the chain is "
            "good for.");
  gap(stage, 4.0F);
  const bool real = source_ < desk.microphones.size();
  if (push(stage, "Check it", {.icon = Icon::tick, .enabled = real && !desk.slow.busy()})) {
    desk.check_chain(desk.microphones[source_].name);
  }
  if (!real) paragraph(stage, stage.fonts.small, stage.palette.muted, "Choose a microphone first.");
  if (const auto busy = desk.slow.busy()) paragraph(stage, stage.fonts.title, stage.palette.text, busy->what);
  for (const auto& words : desk.chain_lines) {
    gap(stage, 2.0F);
    paragraph(stage, stage.fonts.text, stage.palette.text, words);
  }
  gap(stage, 14.0F);
  heading(stage, "Where it stands");
  for (const auto& advice : compare::microphone_placing()) {
    paragraph(stage, stage.fonts.text, stage.palette.muted, advice);
    gap(stage, 2.0F);
  }
}

void RangeView::before(Desk& desk, const Stage& stage, ImVec2 size) {
  const float left = 0.56F * size.x;
  before_sheet(desk, stage, {left, size.y});
  ImGui::SameLine();
  chain(desk, stage, {size.x - left - ImGui::GetStyle().ItemSpacing.x, size.y});
}

void RangeView::before_sheet(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "before", size);
  if (!looked_) {
    looked_ = true;
    desk.look_for_microphones();
  }
  const float width = std::min(size.x - stage.px(34.0F), stage.px(760.0F));
  heading(stage, "Listen while you shoot");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "Microphone a metre from the bow, behind the line, on its own stand. Never loose without an arrow. Nobody forward of the line.",
            width);
  gap(stage, 6.0F);
  line(stage, stage.fonts.small, stage.palette.muted, "Set-up on the bow");
  std::vector<std::string> setups;
  for (const auto& setup : desk.book->setups) setups.push_back(setup.name);
  setup_ = std::min(setup_, setups.empty() ? 0 : setups.size() - 1);
  if (setups.empty()) paragraph(stage, stage.fonts.text, stage.palette.caution, "None yet: make one in the Book (F1) first.", width);
  else one_of(stage, "range setup", setups, setup_);
  gap(stage, 4.0F);
  line(stage, stage.fonts.small, stage.palette.muted, "Microphone");
  std::vector<std::string> sources;
  for (const auto& device : desk.microphones) sources.push_back(fitted(stage.fonts.text, device.name, stage.px(260.0F)));
  sources.emplace_back("a recording, as if it were one");
  source_ = std::min(source_, sources.size() - 1);
  one_of(stage, "source", sources, source_);
  const bool from_file = source_ + 1 == sources.size();
  if (from_file) field(stage, "played-in recording", "a sound file", file_, width);
  else {
    for (const auto& caution : desk.microphones[source_].cautions) {
      paragraph(stage, stage.fonts.small, stage.palette.caution, "! " + caution, width);
    }
  }
  if (push(stage, "Look again", {.kind = Push::quiet, .icon = Icon::loop})) looked_ = false;
  field(stage, "range note", "a note on the block, if you like", note_, width);
  on_off(stage, "Words first: hide the numbers until I have said mine", desk.preferences.words_first);
  gap(stage, 6.0F);
  const bool ready = !setups.empty() && (!from_file || !file_.empty());
  if (!push(stage, "Listen", {.kind = Push::main, .icon = Icon::ear, .width = stage.px(220.0F), .enabled = ready})) return;
  if (from_file) {
    desk.listen(setups[setup_], note_, [file = file_] { return audio::play_file_in(file, {}); });
  } else {
    desk.listen_to_microphone(setups[setup_], note_, desk.microphones[source_].name);
  }
}

void RangeView::while_listening(Desk& desk, const Stage& stage, ImVec2 size) {
  const Hearing& hearing = desk.hearing;
  const float right = std::clamp(0.25F * size.x, stage.px(318.0F), stage.px(380.0F));
  const float left = size.x - right - ImGui::GetStyle().ItemSpacing.x;
  ImGui::BeginGroup();
  {
    const float high = stage.px(150.0F);
    {
      const Sheet paper(stage, "meter", {left, high});
      meter(desk, stage, left - stage.px(32.0F));
    }
    const Sheet paper(stage, "figures", {left, size.y - high - ImGui::GetStyle().ItemSpacing.y});
    figures(desk, stage, {left - stage.px(32.0F), size.y - high - stage.px(36.0F)});
  }
  ImGui::EndGroup();
  ImGui::SameLine();
  const Sheet paper(stage, "range side", {right, size.y});
  const float width = right - stage.px(40.0F);
  line(stage, stage.fonts.small, stage.palette.muted, fitted(stage.fonts.small, hearing.source, width));
  const bool armed = hearing.ears->armed();
  const float half = 0.5F * (width - ImGui::GetStyle().ItemSpacing.x);
  if (push(stage, armed ? "Pause##arm" : "Go on##arm", {.icon = armed ? Icon::stop : Icon::play, .width = half})) {
    if (armed) hearing.ears->pause();
    else hearing.ears->arm();
  }
  ImGui::SameLine();
  if (push(stage, "Next block", {.icon = Icon::plus, .width = half})) hearing.ears->next_block();
  line(stage, stage.fonts.small, stage.palette.muted, "Next block with");
  std::size_t now = 0;
  std::vector<std::string> setups;
  for (const auto& setup : desk.book->setups) {
    if (setup.name == hearing.setup) now = setups.size();
    setups.push_back(setup.name);
  }
  if (one_of(stage, "next setup", setups, now)) {
    desk.hearing.setup = setups[now];
    hearing.ears->next_setup(setups[now]);
  }
  gap(stage, 4.0F);
  if (push(stage, "Stop listening", {.kind = Push::main, .icon = Icon::stop, .width = width, .enabled = !hearing.stopping})) {
    desk.stop_listening();
  }
  gap(stage, 8.0F);
  if (const auto at = desk.chosen_at(); at && hearing.shots > 0) say_.draw(desk, stage, *at, width);
}

}  // namespace ringfall::desk
