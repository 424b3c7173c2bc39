// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/season_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "desk/parts/parts.h"
#include "desk/parts/words.h"
#include "report/sentences.h"

namespace ringfall::desk {
namespace {

constexpr std::size_t kBlocksNamed = 24;

/// Where there are too many to be read, every second, third ... has its number.
std::vector<std::string> name_some(std::vector<std::string> numbers) {
  const std::size_t each = 1 + numbers.size() / kBlocksNamed;
  for (std::size_t k = 0; k < numbers.size(); ++k) {
    if (k % each != 0) numbers[k].clear();
  }
  return numbers;
}

/// Says so when the season is not read yet.
bool season_on_its_way(Desk& desk, const Stage& stage) {
  if (desk.season) return false;
  paragraph(stage, stage.fonts.text, stage.palette.muted, desk.season_stopped ? "Reading the season was stopped." : "Reading the season ...");
  if (desk.season_stopped && push(stage, "Go on##season", {.icon = Icon::loop})) desk.read_season_again();
  return true;
}

}  // namespace

void SeasonView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  desk.need_season();
  const BookSheet& book = *desk.book;
  if (book.setups.empty()) {
    const Sheet paper(stage, "no season", size);
    heading(stage, "Nothing to watch yet");
    return;
  }
  setup_ = std::min(setup_, book.setups.size() - 1);
  const shot::Number* number = shot::find_number(desk.preferences.main_number);
  const std::string of = fmt::format("{} {} {} {}", desk.revision, setup_, desk.preferences.main_number, desk.preferences.words_first);
  if (of != of_) {
    of_ = of;
    read(book, *number, book.setups[setup_].name, desk.preferences.words_first);
    ++revision_;
  }
  const float right = std::clamp(0.3F * size.x, stage.px(290.0F), stage.px(420.0F));
  const float left = size.x - right - ImGui::GetStyle().ItemSpacing.x;
  ImGui::BeginGroup();
  std::vector<std::string> names;
  for (const auto& setup : book.setups) names.push_back(setup.name);
  ImGui::BeginChild("season picture room", {left, size.y}, false, kInside);
  one_of(stage, "season setup", names, setup_);
  pane_.draw(stage, "season picture", figure_, revision_, ImGui::GetContentRegionAvail());
  ImGui::EndChild();
  ImGui::EndGroup();
  ImGui::SameLine();
  const Sheet paper(stage, "season", {right, size.y});
  creep(desk, stage, book.setups[setup_].name);
  gap(stage, 10.0F);
  afar(desk, stage, book.setups[setup_].name);
  gap(stage, 10.0F);
  heading(stage, "Notes");
  for (auto block = book.blocks.rbegin(); block != book.blocks.rend(); ++block) {
    if (block->note.empty() && block->dropped.empty()) continue;
    paragraph(stage, stage.fonts.small, stage.palette.muted, fmt::format("block {}, {}", block->number, block->setup));
    paragraph(stage, stage.fonts.text, stage.palette.text, block->dropped.empty() ? block->note : "left out: " + block->dropped);
  }
}

void SeasonView::read(const BookSheet& book, const shot::Number& number, const std::string& setup, bool words_first) {
  plot::Panel panel;
  panel.y.quantity = std::string(number.label);
  panel.y.unit = std::string(number.unit);
  plot::Dots shots;
  plot::Trace means;
  std::vector<double> order;
  std::vector<double> values;
  std::vector<std::string> numbers;  // of the blocks; each is a place on the axis
  for (const auto& block : book.blocks) {
    if (block.setup != setup || !block.dropped.empty()) continue;
    const auto place = static_cast<double>(numbers.size());
    double sum = 0.0;
    std::size_t n = 0;
    for (const auto& shot : block.shots) {
      const auto value = number.of(shot.shot);
      if (!value || !shot.dropped.empty() || !numbers_shown(block, shot, words_first)) continue;
      shots.x.push_back(place);
      shots.y.push_back(*value);
      sum += *value;
      ++n;
    }
    if (n == 0) continue;
    order.push_back(place);
    numbers.push_back(std::to_string(block.number));
    values.push_back(sum / static_cast<double>(n));
  }
  panel.x = plot::category_axis("Block", name_some(std::move(numbers)));
  means.x = order;
  means.y = values;
  means.name = "mean of the block";
  means.ink = plot::Ink::accent;
  shots.name = "a shot";
  shots.ink = plot::trace_ink(static_cast<int>(book.setup_index(setup)));
  panel.series = {shots, means};
  figure_ = {};
  figure_.panels = {panel};
}

void SeasonView::creep(Desk& desk, const Stage& stage, const std::string& setup) {
  heading(stage, "Does it creep?");
  const compare::SetUpSeason* own = nullptr;
  if (desk.season) {
    for (const auto& season : desk.season->seasons) own = season.setup == setup ? &season : own;
  }
  if (own == nullptr) {
    if (!season_on_its_way(desk, stage)) paragraph(stage, stage.fonts.text, stage.palette.muted, "Nothing of this set-up counts yet.");
    return;
  }
  for (const auto& trigger : own->triggers) {
    paragraph(stage, stage.fonts.strong, stage.palette.caution, "! " + trigger.sentence);
    gap(stage, 2.0F);
  }
  bool said = false;
  for (const auto& trend : own->trends) {
    if (!trend.per_day || !trend.per_day->interval || trend.days < 1.0) continue;
    said = true;
    const auto a_month = [&](double per_day) { return report::signed_number(30.0 * per_day, trend.measure.decimals + 1); };
    paragraph(stage, stage.fonts.text, stage.palette.text,
              fmt::format("{}: {} {} a month, 95 % interval {} to {} ({} evenings).", trend.measure.label, a_month(trend.per_day->slope),
                          trend.measure.unit, a_month(trend.per_day->interval->low), a_month(trend.per_day->interval->high), trend.sessions));
  }
  if (!said) {
    paragraph(stage, stage.fonts.text, stage.palette.text,
              fmt::format("{} evening{} so far: a trend takes five, a warning four.", own->points.size(), own->points.size() == 1 ? "" : "s"));
  }
  if (!own->scale_note.empty()) paragraph(stage, stage.fonts.text, stage.palette.text, own->scale_note);
  if (!own->chain_note.empty()) paragraph(stage, stage.fonts.small, stage.palette.muted, own->chain_note);
}

void SeasonView::afar(const Desk& desk, const Stage& stage, const std::string& setup) {
  heading(stage, "Heard at a distance");
  const HeardAfar* own = nullptr;
  if (desk.season) {
    for (const auto& heard : desk.season->afar) own = heard.setup == setup && !heard.at.empty() ? &heard : own;
  }
  if (own == nullptr) {
    if (!desk.season) return;
    paragraph(stage, stage.fonts.text, stage.palette.muted, "No shot of this set-up has a level that counts.");
    return;
  }
  const bool archers = desk.preferences.archers_units;
  for (const auto& estimate : own->at) {
    std::string words = fmt::format("{}: {:.0f} dB(A), sound after {}", distance_words(estimate.distance_m, archers), estimate.level_a_db,
                                    duration_text(estimate.sound_s));
    if (estimate.arrow_s) words += ", arrow after " + duration_text(*estimate.arrow_s);
    paragraph(stage, stage.fonts.text, stage.palette.text, words);
  }
  paragraph(stage, stage.fonts.small, stage.palette.muted,
            fmt::format("Sound exposure {}, in still air over a free field, from {} shots, the microphone taken to stand 1 m from the grip.",
                        own->calibrated ? "re 20 uPa" : "re full scale: only differences mean something", own->shots));
  for (const auto& caution : compare::hunting_cautions()) paragraph(stage, stage.fonts.small, stage.palette.muted, caution);
}

}  // namespace ringfall::desk
