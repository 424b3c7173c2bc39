// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/ears_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "report/setup_figures.h"

namespace ringfall::desk {
namespace {

constexpr float kLeastPicture = 170.0F;

}  // namespace

void EarsView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const CompareSheet* sheet = desk.comparison.get();
  if (sheet == nullptr || sheet->excerpts.empty()) {
    const Sheet paper(stage, "no ears", size);
    heading(stage, "Nothing to listen to yet");
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              !desk.compare_trouble.empty() ? desk.compare_trouble : desk.compare_stopped ? "Getting the shots ready was stopped." : "Getting the shots ready ...");
    if (desk.compare_stopped && push(stage, "Go on##ears", {.icon = Icon::ear})) desk.compare_again();
    return;
  }
  const auto& setups = sheet->report.source.comparison.setups;
  const float left = 0.5F * (size.x - ImGui::GetStyle().ItemSpacing.x);
  {
    const Sheet paper(stage, "rows", {left, size.y});
    const ImVec2 top = ImGui::GetCursorPos();
    ImGui::SetCursorPos({left - stage.px(16.0F + 106.0F), top.y - stage.px(4.0F)});
    if (push(stage, "Silence", {.icon = Icon::stop, .width = stage.px(106.0F), .enabled = desk.playing()})) desk.stop_playing();
    ImGui::SetCursorPos(top);
    heading(stage, "Listen");
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              fmt::format("Press a shot's number. All at one gain ({:+.1f} dB), so a quieter set-up stays quieter. Headphones are best.",
                          sheet->report.source.clip_gain_db),
              left - stage.px(32.0F + 114.0F));
    gap(stage, 6.0F);
    float names = 0.0F;
    for (const auto& setup : setups) names = std::max(names, stage.fonts.strong->CalcTextSizeA(stage.fonts.strong->FontSize, 1e9F, 0.0F, setup.c_str()).x);
    names = std::min(names, 0.3F * left);
    for (std::size_t k = 0; k < setups.size(); ++k) setup_row(desk, stage, setups[k], k, names);
    gap(stage, 6.0F);
    pictures(*sheet, stage, {left - stage.px(32.0F), ImGui::GetContentRegionAvail().y});
  }
  ImGui::SameLine();
  const Sheet paper(stage, "test", {left, size.y});
  test(desk, stage, {left - stage.px(32.0F), size.y});
}

void EarsView::pictures(const CompareSheet& sheet, const Stage& stage, ImVec2 size) {
  if (size.y < stage.px(kLeastPicture + 60.0F)) return;
  const Looked now{sheet.number, first_, second_, picture_};
  if (now != looked_ || revision_ == 0) {
    looked_ = now;
    const std::vector<std::size_t> both = {first_, second_};
    figure_ = picture_ == 2 ? report::tails_figure(sheet.report, both) : report::decays_figure(sheet.report, picture_ == 0, both);
    if (figure_) figure_->title.clear();
    ++revision_;
  }
  heading(stage, "What the two look like");
  one_of(stage, "ears picture", {"dying away, A", "dying away, unweighted", "what rings"}, picture_);
  if (!figure_) paragraph(stage, stage.fonts.text, stage.palette.muted, "No shot of these two can be drawn like this.");
  else pane_.draw(stage, "ears picture", *figure_, revision_, ImGui::GetContentRegionAvail());
}

void EarsView::sound_of(Desk& desk, const std::string& setup, std::size_t which) {
  std::vector<const Excerpt*> own;
  for (const Excerpt& excerpt : desk.comparison->excerpts) {
    if (excerpt.setup == setup) own.push_back(&excerpt);
  }
  if (own.empty()) return;
  const Excerpt& excerpt = *own[which % own.size()];
  desk.play(excerpt.samples, excerpt.sample_rate_hz);
}

void EarsView::setup_row(Desk& desk, const Stage& stage, const std::string& setup, std::size_t index, float name_wide) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float middle = stage.px(17.0F);
  draw_setup_mark(stage, *ImGui::GetWindowDrawList(), index, {at.x + stage.px(8.0F), at.y + middle}, stage.px(6.0F));
  ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), at.y + middle - 0.5F * stage.fonts.strong->FontSize});
  const std::string name = fitted(stage.fonts.strong, setup, name_wide);
  line(stage, stage.fonts.strong, stage.palette.text, name);
  if (name != setup) show_tip(stage, setup);
  const float in = stage.px(36.0F) + name_wide;
  ImGui::SetCursorScreenPos({at.x + in, at.y});
  ImGui::Indent(in);
  const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
  const float wide = stage.px(72.0F);
  std::size_t which = 0;
  for (const Excerpt& excerpt : desk.comparison->excerpts) {
    if (excerpt.setup != setup) continue;
    if (which > 0) ImGui::SameLine();
    if (which > 0 && ImGui::GetCursorScreenPos().x + wide > right) ImGui::NewLine();
    const PushLook look{.icon = Icon::play, .width = wide, .tip = fmt::format("shot {}", excerpt.shot)};
    if (push(stage, fmt::format("{}##hear", excerpt.shot).c_str(), look)) sound_of(desk, setup, which);
    ++which;
  }
  ImGui::Unindent(in);
}

void EarsView::test(Desk& desk, const Stage& stage, ImVec2 size) {
  const float width = size.x;
  const auto& setups = desk.comparison->report.source.comparison.setups;
  heading(stage, "Can you tell them apart?");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "X is one of the two, drawn anew each round, and not always the same shot. Say which it is; Ringfall counts.");
  gap(stage, 6.0F);
  if (std::max(first_, second_) >= setups.size()) {
    first_ = 0;
    second_ = 1;
  }
  const auto which = [&](const char* letter, const char* name, std::size_t& chosen) {
    const ImVec2 at = ImGui::GetCursorPos();
    ImGui::SetCursorPosY(at.y + stage.px(8.0F));
    line(stage, stage.fonts.strong, stage.palette.text, letter);
    ImGui::SetCursorPos({at.x + stage.px(26.0F), at.y});
    ImGui::Indent(stage.px(26.0F));
    const bool changed = one_of(stage, name, setups, chosen);
    ImGui::Unindent(stage.px(26.0F));
    return changed;
  };
  const std::size_t was_first = first_;
  const std::size_t was_second = second_;
  const bool other_first = which("A", "first", first_);
  const bool other_second = which("B", "second", second_);
  // Two alike can't be told apart: who takes the other's place gives it the own.
  if (other_first && first_ == second_) second_ = was_first;
  if (other_second && first_ == second_) first_ = was_second;
  if (other_first || other_second) blind_.start_over();
  gap(stage, 10.0F);
  const float third = (width - 2.0F * ImGui::GetStyle().ItemSpacing.x) / 3.0F;
  const PushLook play{.kind = Push::plain, .icon = Icon::play, .width = third};
  if (push(stage, "A (a)", play) || command(Key::a)) sound_of(desk, setups[first_], blind_.pick() / 3);
  ImGui::SameLine();
  PushLook hidden = play;
  hidden.kind = Push::main;
  if (push(stage, "X (x)", hidden) || command(Key::x)) {
    sound_of(desk, setups[blind_.hidden_is_second() ? second_ : first_], blind_.pick());
  }
  ImGui::SameLine();
  if (push(stage, "B (b)", play) || command(Key::b)) sound_of(desk, setups[second_], blind_.pick() / 7);
  gap(stage, 6.0F);
  const float half = 0.5F * (width - ImGui::GetStyle().ItemSpacing.x);
  if (push(stage, "X is A", {.icon = Icon::ear, .width = half})) blind_.answer(false);
  ImGui::SameLine();
  if (push(stage, "X is B", {.icon = Icon::ear, .width = half})) blind_.answer(true);
  gap(stage, 10.0F);
  paragraph(stage, stage.fonts.title, stage.palette.text, blind_.score());
  stage.name_last(blind_.score());
  if (blind_.rounds() == 0) {
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              "Decide on the number of rounds before you begin; sixteen make a fair test. Each answer is listed here.");
  }
  if (blind_.rounds() > 0 && push(stage, "Start over", {.kind = Push::quiet, .icon = Icon::undo})) blind_.start_over();
  log(stage, setups, {width, ImGui::GetContentRegionAvail().y});
}

void EarsView::log(const Stage& stage, const std::vector<std::string>& setups, ImVec2 size) {
  if (size.y < stage.px(70.0F)) return;
  const bool drawn = size.y >= stage.px(kLeastPicture) && size.x >= stage.px(560.0F);
  const float wide = drawn ? 0.46F * size.x : size.x;
  ImGui::BeginChild("log", {wide, size.y - stage.px(4.0F)}, false, kInside);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  for (std::size_t k = blind_.log().size(); k-- > 0;) {  // the newest first
    const auto& round = blind_.log()[k];
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float high = stage.px(25.0F);
    const ImU32 ink = round.right() ? stage.palette.fine : stage.palette.caution;
    draw_icon(list, round.right() ? Icon::tick : Icon::cross, {at.x + stage.px(9.0F), at.y + 0.5F * high}, stage.px(12.0F), ink);
    const std::string words = fmt::format("{}.  X was {}, you said {}", k + 1, setups[round.was_second ? second_ : first_], round.said_second ? "B" : "A");
    list.AddText(stage.fonts.text, stage.fonts.text->FontSize, {at.x + stage.px(24.0F), at.y + stage.px(2.0F)}, stage.palette.text,
                 fitted(stage.fonts.text, words, wide - stage.px(40.0F)).c_str());
    ImGui::Dummy({wide - stage.px(14.0F), high});
    stage.name_last(fmt::format("round {} {}", k + 1, round.right() ? "right" : "wrong"));
  }
  ImGui::EndChild();
  if (!drawn) return;
  if (score_revision_ == 0 || score_rounds_ != blind_.rounds()) {
    score_rounds_ = blind_.rounds();
    score_ = score_figure(blind_);
    ++score_revision_;
  }
  ImGui::SameLine();
  score_pane_.draw(stage, "score picture", score_, score_revision_, {size.x - wide - ImGui::GetStyle().ItemSpacing.x, size.y - stage.px(4.0F)});
}

}  // namespace ringfall::desk
