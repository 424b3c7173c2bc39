// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/range_view.h"

#include <algorithm>

#include "audio/paced_file.h"
#include "base/text.h"
#include "compare/plan_advice.h"
#include "desk/parts/parts.h"
#include "desk/figures/placing_sketch.h"
#include "desk/figures/setup_mark.h"
#include "desk/parts/words.h"
#include "intake/chain_judgement.h"

namespace ringfall::desk {
namespace {

constexpr float kForm = 424.0F;       // what the form takes with one line of cautions
constexpr float kLeastSoFar = 190.0F;
constexpr float kLeastPlacing = 130.0F;

}  // namespace

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
  gap(stage, 4.0F);
  const ImVec2 room = ImGui::GetContentRegionAvail();
  if (room.y < stage.px(kLeastPlacing)) return;
  draw_placing_sketch(stage, {room.x, std::min(room.y, stage.px(260.0F))});
}

void RangeView::before(Desk& desk, const Stage& stage, ImVec2 size) {
  const float left = 0.56F * size.x;
  const float form = std::min(size.y, stage.px(kForm));
  const float rest = size.y - form - ImGui::GetStyle().ItemSpacing.y;
  ImGui::BeginGroup();
  if (rest < stage.px(kLeastSoFar) || desk.book->blocks.empty()) {
    before_sheet(desk, stage, {left, size.y});
  } else {
    before_sheet(desk, stage, {left, form});
    so_far(desk, stage, {left, rest});
  }
  ImGui::EndGroup();
  ImGui::SameLine();
  chain(desk, stage, {size.x - left - ImGui::GetStyle().ItemSpacing.x, size.y});
}

void RangeView::so_far(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "so far", size);
  const BookSheet& book = *desk.book;
  // The newest block that counts; the very newest when none does.
  const auto counting = std::find_if(book.blocks.rbegin(), book.blocks.rend(), [](const auto& block) { return block.dropped.empty(); });
  const auto& newest = counting == book.blocks.rend() ? book.blocks.back() : *counting;
  const float left = std::min(0.42F * size.x, stage.px(300.0F));
  ImGui::BeginGroup();
  heading(stage, "Shot so far this session");
  for (std::size_t k = 0; k < book.setups.size(); ++k) {
    std::size_t blocks = 0;
    std::size_t shots = 0;
    for (const auto& block : book.blocks) {
      if (block.setup != book.setups[k].name || block.session != book.conditions.session || !block.dropped.empty()) continue;
      ++blocks;
      shots += static_cast<std::size_t>(std::ranges::count_if(block.shots, [](const auto& shot) { return shot.dropped.empty(); }));
    }
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_setup_mark(stage, *ImGui::GetWindowDrawList(), k, {at.x + stage.px(8.0F), at.y + stage.px(12.0F)}, stage.px(6.0F));
    ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), at.y});
    line(stage, stage.fonts.text, stage.palette.text, fitted(stage.fonts.text, book.setups[k].name, left - stage.px(24.0F)));
    ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), ImGui::GetCursorScreenPos().y - stage.px(5.0F)});
    line(stage, stage.fonts.small, stage.palette.muted, blocks == 0 ? "nothing yet" : counted(shots, "shot") + " in " + counted(blocks, "block"));
  }
  ImGui::EndGroup();
  if (newest.session != book.conditions.session) return;  // nothing is shot in this one yet
  desk.need_running(newest.number);
  if (!desk.running || desk.running->block != newest.number) return;
  ImGui::SameLine(left);
  pictures(desk, stage, {size.x - left - stage.px(20.0F), size.y - stage.px(24.0F)}, false);
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
  ImGui::SameLine(0.0F, stage.px(5.0F));
  if (ImGui::GetContentRegionAvail().x < stage.px(40.0F)) ImGui::NewLine();
  if (push(stage, "##look again", {.kind = Push::quiet, .icon = Icon::loop, .width = stage.px(34.0F), .tip = "look for microphones again"})) looked_ = false;
  if (sources.size() == 1) paragraph(stage, stage.fonts.small, stage.palette.caution, "No microphone was found. Plug one in and look again.", width);
  const bool from_file = source_ + 1 == sources.size();
  if (from_file) field(stage, "played-in recording", "a sound file", file_, width);
  else {
    for (const auto& caution : desk.microphones[source_].cautions) {
      paragraph(stage, stage.fonts.small, stage.palette.caution, "! " + caution, width);
    }
  }
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
    const float high = stage.px(126.0F);
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
