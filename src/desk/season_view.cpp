// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/season_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/parts.h"
#include "desk/words.h"
#include "stats/trend.h"

namespace ringfall::desk {

void SeasonView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const BookSheet& book = *desk.book;
  if (book.setups.empty()) {
    const Sheet paper(stage, "no season", size);
    heading(stage, "Nothing to watch yet");
    return;
  }
  setup_ = std::min(setup_, book.setups.size() - 1);
  const shot::Number* number = shot::find_number(desk.preferences.main_number);
  const std::string of = fmt::format("{} {} {}", desk.revision, setup_, desk.preferences.main_number);
  if (of != of_) {
    of_ = of;
    read(book, *number, book.setups[setup_].name);
    ++revision_;
  }
  const float right = std::clamp(0.3F * size.x, stage.px(290.0F), stage.px(420.0F));
  const float left = size.x - right - ImGui::GetStyle().ItemSpacing.x;
  ImGui::BeginGroup();
  std::vector<std::string> names;
  for (const auto& setup : book.setups) names.push_back(setup.name);
  ImGui::BeginChild("season picture room", {left, size.y});
  one_of(stage, "season setup", names, setup_);
  pane_.draw(stage, "season picture", figure_, revision_, ImGui::GetContentRegionAvail());
  ImGui::EndChild();
  ImGui::EndGroup();
  ImGui::SameLine();
  const Sheet paper(stage, "season", {right, size.y});
  heading(stage, "Does it creep?");
  paragraph(stage, stage.fonts.text, stage.palette.text, sentence_);
  gap(stage, 4.0F);
  paragraph(stage, stage.fonts.small, stage.palette.muted,
            "The same bow, set-up, arrows, place and microphone spot each time; else it is the spot that changes, not the bow. A sudden "
            "rise of hum or buzz is a reason to look the bow over before the next shot.");
  gap(stage, 10.0F);
  heading(stage, "Notes");
  for (auto block = book.blocks.rbegin(); block != book.blocks.rend(); ++block) {
    if (block->note.empty() && block->dropped.empty()) continue;
    paragraph(stage, stage.fonts.small, stage.palette.muted, fmt::format("block {}, {}", block->number, block->setup));
    paragraph(stage, stage.fonts.text, stage.palette.text, block->dropped.empty() ? block->note : "left out: " + block->dropped);
  }
}

void SeasonView::read(const BookSheet& book, const shot::Number& number, const std::string& setup) {
  plot::Panel panel;
  panel.x.quantity = "Block";
  panel.y.quantity = std::string(number.label);
  panel.y.unit = std::string(number.unit);
  plot::Dots shots;
  plot::Trace means;
  std::vector<double> order;
  std::vector<double> values;
  for (const auto& block : book.blocks) {
    if (block.setup != setup || !block.dropped.empty()) continue;
    double sum = 0.0;
    std::size_t n = 0;
    for (const auto& shot : block.shots) {
      const auto value = number.of(shot.shot);
      if (!value || !shot.dropped.empty()) continue;
      shots.x.push_back(static_cast<double>(block.number));
      shots.y.push_back(*value);
      sum += *value;
      ++n;
    }
    if (n == 0) continue;
    order.push_back(static_cast<double>(block.number));
    values.push_back(sum / static_cast<double>(n));
  }
  means.x = order;
  means.y = values;
  means.name = "mean of the block";
  means.ink = plot::Ink::accent;
  shots.name = "a shot";
  panel.series = {shots, means};
  figure_ = {};
  figure_.panels = {panel};
  sentence_ = fmt::format("'{}' has {} block{} with this number; a trend takes five.", setup, values.size(), values.size() == 1 ? "" : "s");
  if (values.size() < 5) return;
  const auto trend = stats::theil_sen(order, values);
  if (!trend || !trend->interval) return;
  const bool settled = trend->interval->low > 0.0 || trend->interval->high < 0.0;
  sentence_ = fmt::format("{} of '{}' {} {:+.{}f} {} a block (95 % interval {:+.{}f} to {:+.{}f}).", number.label, setup,
                          settled ? "moves by" : "shows no settled trend:", trend->slope, number.decimals + 1, number.unit,
                          trend->interval->low, number.decimals + 1, trend->interval->high, number.decimals + 1);
}

}  // namespace ringfall::desk
