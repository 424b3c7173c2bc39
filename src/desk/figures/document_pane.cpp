// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/figures/document_pane.h"

#include <algorithm>
#include <numeric>

#include "base/text.h"
#include "desk/parts/parts.h"

namespace ringfall::desk {
namespace {

constexpr float kLeastDrawing = 300.0F;

float lines_high(ImFont* font, const std::string& words) {
  return font->FontSize * static_cast<float>(1 + std::ranges::count(words, '\n'));
}

float words_wide(ImFont* font, const std::string& words) {
  return font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.c_str()).x;
}

/// The widest word of some words.
float word_wide(ImFont* font, std::string_view words) {
  float widest = 0.0F;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    widest = std::max(widest, words_wide(font, std::string(words.substr(0, end))));
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return widest;
}

/// Those that want no more than their part get it, the others share what is left: long words are broken before short ones are.
std::vector<float> shared_out(std::vector<float> wanted, float width) {
  std::vector<std::size_t> by_size(wanted.size());
  std::iota(by_size.begin(), by_size.end(), std::size_t{0});
  std::ranges::sort(by_size, {}, [&wanted](std::size_t k) { return wanted[k]; });
  for (std::size_t rank = 0; rank < by_size.size(); ++rank) {
    float& own = wanted[by_size[rank]];
    own = std::min(own, width / static_cast<float>(by_size.size() - rank));
    width -= own;
  }
  return wanted;
}

/// Widths of a table's columns: as its words want; where that is too much the widest word of each, and what is left shared out.
std::vector<float> column_widths(const Stage& stage, const report::Table& table, float width) {
  const float between = stage.px(12.0F) + 2.0F;  // words are measured one by one: a little more than all of them together
  std::vector<float> least;
  std::vector<float> wanted;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    float most = words_wide(stage.fonts.small, table.columns[k].head);
    float word = word_wide(stage.fonts.small, table.columns[k].head);
    for (const auto& row : table.rows) {
      most = std::max(most, words_wide(stage.fonts.small, row[k]));
      word = std::max(word, word_wide(stage.fonts.small, row[k]));
    }
    wanted.push_back(most + between);
    least.push_back(word + between);
  }
  const float all = std::accumulate(wanted.begin(), wanted.end(), 0.0F);
  const float all_least = std::accumulate(least.begin(), least.end(), 0.0F);
  if (all <= width) return wanted;
  if (all_least >= width) return shared_out(std::move(least), width);
  std::vector<float> widths;
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    widths.push_back(least[k] + (width - all_least) * (wanted[k] - least[k]) / (all - all_least));
  }
  return widths;
}

}  // namespace

std::string held_words(const report::Section& section) {
  std::size_t tables = 0;
  std::size_t pictures = 0;
  std::size_t sounds = 0;
  for (const auto& piece : section.pieces) {
    if (std::holds_alternative<report::Table>(piece)) ++tables;
    if (const auto* drawn = std::get_if<report::Drawings>(&piece)) pictures += drawn->figures.size();
    if (const auto* played = std::get_if<report::Sounds>(&piece)) sounds += played->sounds.size();
  }
  std::string words;
  const auto add = [&words](std::size_t n, const char* what) {
    if (n > 0) words += (words.empty() ? "" : ", ") + counted(n, what);
  };
  add(tables, "table");
  add(pictures, "picture");
  add(sounds, "sound");
  return words;
}

void DocumentPane::put(ImFont* font, bool muted, const std::string& words, float x, float width) {
  Line line{{x, y_}, 0.0F, font, muted, false, broken(font, words, width)};
  line.high = lines_high(font, line.words);
  y_ += line.high;
  lines_.push_back(std::move(line));
}

void DocumentPane::put(const Stage& stage, const report::Piece& piece, float width) {
  std::visit([&](const auto& own) { put(stage, own, width); }, piece);
  y_ += stage.px(9.0F);
}

void DocumentPane::put(const Stage& stage, const report::Words& words, float width) {
  const bool verdict = words.style == report::WordsStyle::verdict;
  const bool small = words.style == report::WordsStyle::small;
  put(verdict ? stage.fonts.strong : small ? stage.fonts.small : stage.fonts.text, small, words.text, 0.0F, width);
}

void DocumentPane::put(const Stage& stage, const report::Points& points, float width) {
  const float in = stage.px(14.0F);
  for (const auto& item : points.items) {
    lines_.push_back({{stage.px(2.0F), y_}, stage.fonts.text->FontSize, stage.fonts.text, true, false, "-"});
    put(stage.fonts.text, false, item, in, width - in);
    y_ += stage.px(3.0F);
  }
}

void DocumentPane::row(const Stage& stage, const std::vector<std::string>& cells, const report::Table& table, const std::vector<float>& widths,
                       bool head) {
  const float top = y_;
  float bottom = y_;
  float x = 0.0F;
  const float between = stage.px(12.0F);
  for (std::size_t k = 0; k < cells.size(); ++k) {
    y_ = top;
    put(stage.fonts.small, head, cells[k], x, widths[k] - between);
    const bool one_line = lines_.back().words.find('\n') == std::string::npos;
    if (table.columns[k].number && one_line) lines_.back().at.x = x + widths[k] - between - words_wide(stage.fonts.small, lines_.back().words);
    bottom = std::max(bottom, y_);
    x += widths[k];
  }
  y_ = bottom + stage.px(3.0F);
}

void DocumentPane::put(const Stage& stage, const report::Table& table, float width) {
  put(stage.fonts.small, true, table.caption, 0.0F, width);
  y_ += stage.px(4.0F);
  const auto widths = column_widths(stage, table, width);
  std::vector<std::string> heads;
  for (const auto& column : table.columns) heads.push_back(column.head);
  row(stage, heads, table, widths, true);
  rules_.push_back(y_);
  y_ += stage.px(4.0F);
  for (const auto& cells : table.rows) row(stage, cells, table, widths, false);
}

void DocumentPane::put(const Stage& stage, const report::Drawings& drawings, float width) {
  const float between = stage.px(8.0F);
  const bool two = drawings.across != report::Across::one && drawings.figures.size() > 1 && width >= stage.px(2.0F * kLeastDrawing) + between;
  const float each = two ? 0.5F * (width - between) : width;
  for (std::size_t k = 0; k < drawings.figures.size(); k += two ? 2 : 1) {
    const float top = y_;
    float bottom = y_;
    for (std::size_t own = k; own < std::min(drawings.figures.size(), k + (two ? 2 : 1)); ++own) {
      const auto& drawn = drawings.figures[own];
      const float x = own == k ? 0.0F : each + between;
      const float high = std::clamp(each * static_cast<float>(drawn.figure.height_pt / drawn.figure.width_pt), stage.px(180.0F), stage.px(460.0F));
      places_.push_back({{x, top}, {each, high}});
      y_ = top + high + stage.px(2.0F);
      put(stage.fonts.small, true, drawn.caption, x, each);
      bottom = std::max(bottom, y_);
    }
    y_ = bottom + between;
  }
}

void DocumentPane::put(const Stage& stage, const report::Sounds& sounds, float width) {
  for (const auto& sound : sounds.sounds) put(stage.fonts.text, false, "to be played: " + sound.label, stage.px(14.0F), width - stage.px(14.0F));
}

void DocumentPane::set(const Stage& stage, const report::Document& document, float width) {
  lines_.clear();
  rules_.clear();
  places_.clear();
  sections_.clear();
  y_ = 0.0F;
  put(stage.fonts.title, false, document.title, 0.0F, width);
  y_ += stage.px(8.0F);
  for (const auto& piece : document.opening) put(stage, piece, width);
  for (const auto& section : document.sections) {
    y_ += stage.px(10.0F);
    sections_.push_back(y_);
    put(stage.fonts.strong, false, section.heading, stage.px(11.0F), width - stage.px(11.0F));
    lines_.back().headed = true;
    y_ += stage.px(5.0F);
    for (const auto& piece : section.pieces) put(stage, piece, width);
  }
  while (panes_.size() < places_.size()) panes_.emplace_back();
  while (panes_.size() > places_.size()) panes_.pop_back();
}

void DocumentPane::draw(const Stage& stage, const report::Document& document, std::uint64_t revision, ImVec2 size) {
  ImGui::BeginChild("document", size, false, kInside);
  const float width = size.x - stage.px(16.0F);  // beside the scroll bar
  if (revision != revision_ || width != width_ || font_ != stage.fonts.text) {
    revision_ = revision;
    width_ = width;
    font_ = stage.fonts.text;
    set(stage, document, width);
  }
  if (wanted_ && *wanted_ < sections_.size()) ImGui::SetScrollY(sections_[*wanted_]);
  wanted_.reset();
  const ImVec2 origin = ImGui::GetCursorScreenPos();  // moves with scrolling
  const float from = ImGui::GetScrollY();
  const auto in_sight = [&](float top, float high) { return top + high >= from && top <= from + size.y; };
  ImDrawList& list = *ImGui::GetWindowDrawList();
  for (const Line& line : lines_) {
    if (!in_sight(line.at.y, line.high)) continue;
    const ImVec2 at = {std::round(origin.x + line.at.x), std::round(origin.y + line.at.y)};
    list.AddText(line.font, line.font->FontSize, at, line.muted ? stage.palette.muted : stage.palette.text, line.words.c_str());
    if (line.headed) list.AddRectFilled({origin.x, at.y + 0.28F * line.font->FontSize}, {origin.x + stage.px(4.0F), at.y + 0.98F * line.font->FontSize}, stage.palette.wax);
  }
  for (const float y : rules_) list.AddLine({origin.x, origin.y + y}, {origin.x + width, origin.y + y}, stage.palette.hem);
  std::size_t next = 0;
  const auto pictures = [&](const report::Piece& piece) {
    const auto* drawings = std::get_if<report::Drawings>(&piece);
    for (std::size_t k = 0; drawings != nullptr && k < drawings->figures.size(); ++k, ++next) {
      const Place& place = places_[next];
      if (!in_sight(place.at.y, place.size.y)) continue;
      ImGui::SetCursorScreenPos({origin.x + place.at.x, origin.y + place.at.y});
      const auto& drawn = drawings->figures[k];
      panes_[next].draw_still(stage, drawn.id.c_str(), drawn.figure, revision, place.size);
    }
  };
  std::ranges::for_each(document.opening, pictures);
  for (const auto& section : document.sections) std::ranges::for_each(section.pieces, pictures);
  ImGui::SetCursorScreenPos({origin.x, origin.y + y_});
  ImGui::Dummy({width, 1.0F});
  ImGui::EndChild();
  stage.name_last("document");
}

}  // namespace ringfall::desk
