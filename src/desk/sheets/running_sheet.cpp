// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/running_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "desk/parts/words.h"
#include "stats/summary.h"

namespace ringfall::desk {
namespace {

/// The values that may be seen, and the newest of them apart.
struct SeenValues {
  std::vector<double> values;
  std::optional<double> newest;
};

void add_seen(const logbook::KeptBlock& block, const shot::Number& number, bool words_first, SeenValues& seen) {
  for (const auto& shot : block.shots) {
    const auto value = number.of(shot.shot);
    if (!value || !shot.dropped.empty() || !numbers_shown(block, shot, words_first)) continue;
    seen.values.push_back(*value);
    seen.newest = value;
  }
}

/// Dots at a place of the axis and a stroke at their mean, in the ink of their set-up.
void draw_seen(const SeenValues& seen, double place, std::size_t setup, plot::Panel& panel) {
  plot::Dots dots;
  dots.x.assign(seen.values.size(), place);
  dots.y = seen.values;
  dots.ink = plot::trace_ink(static_cast<int>(setup));
  dots.radius_pt = 3.0;
  if (const auto mean = stats::mean(seen.values); mean && seen.values.size() > 1) {
    panel.series.emplace_back(plot::Trace{.x = {place - 0.3, place + 0.3}, .y = {*mean, *mean}, .ink = dots.ink, .width_pt = 1.6, .dash = plot::Dash::solid});
  }
  panel.series.emplace_back(std::move(dots));
}

std::optional<plot::Figure> running_dots(const BookSheet& book, const logbook::KeptBlock& running, const RunningQuestion& question) {
  const shot::Number& number = *shot::find_number(question.number);
  SeenValues here;
  add_seen(running, number, question.words_first, here);
  SeenValues before;
  const auto baseline = std::ranges::find(book.setups, true, &logbook::SetUp::baseline);
  for (const auto& block : book.blocks) {
    const bool of_baseline = baseline != book.setups.end() && block.setup == baseline->name && block.bow == running.bow;
    if (of_baseline && block.number != running.number && block.session == running.session && block.dropped.empty()) {
      add_seen(block, number, question.words_first, before);
    }
  }
  if (here.values.empty() && before.values.empty()) return std::nullopt;
  plot::Panel panel;
  panel.y.quantity = std::string(number.label);
  panel.y.unit = number.unit == "dB" ? "dB " + book.level_reference(running) : std::string(number.unit);
  panel.legend = plot::LegendPlace::none;
  std::vector<std::string> places;
  if (!before.values.empty()) {
    draw_seen(before, 0.0, book.setup_index(baseline->name), panel);
    places.push_back(baseline->name + (running.setup == baseline->name ? ", before" : ""));
  }
  const auto place = static_cast<double>(places.size());
  places.push_back(fmt::format("{}, block {}", running.setup, running.number));
  draw_seen(here, place, book.setup_index(running.setup), panel);
  if (here.newest) panel.series.emplace_back(plot::Rule{plot::Along::y, *here.newest, "newest", plot::Ink::accent, plot::Dash::dotted});
  panel.x = plot::category_axis("", places);
  plot::Figure figure;
  figure.panels = {std::move(panel)};
  return figure;
}

}  // namespace

BigWords big_words(const shot::Shot& shot) {
  BigWords words;
  for (std::size_t k = 0; k < kBigFigures.size(); ++k) {
    const auto* number = shot::find_number(kBigFigures[k].id);
    words[k] = kBigFigures[k].decimals < 0 ? value_words(*number, shot) : plain_number(number->of(shot), kBigFigures[k].decimals);
  }
  return words;
}

std::shared_ptr<const RunningSheet> running_sheet(const BookSheet& book, const RunningQuestion& question, std::uint64_t number) {
  const auto block = std::ranges::find(book.blocks, question.block, &logbook::KeptBlock::number);
  if (block == book.blocks.end()) return nullptr;
  auto sheet = std::make_shared<RunningSheet>();
  sheet->number = number;
  sheet->block = block->number;
  sheet->setup = block->setup;
  for (const auto& shot : block->shots) {
    if (shot.analyser.empty()) continue;  // kept a moment ago, and measured in another
    RunningSheet::Row row{shot.id, {}, shot.dropped};
    row.words.fill("?");
    if (numbers_shown(*block, shot, question.words_first)) row.words = big_words(shot.shot);
    sheet->rows.push_back(std::move(row));
  }
  sheet->dots = running_dots(book, *block, question);
  return sheet;
}

}  // namespace ringfall::desk
