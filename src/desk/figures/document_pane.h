// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "desk/figures/figure_pane.h"
#include "desk/parts/stage.h"
#include "report/document.h"

namespace ringfall::desk {

/// A report's document set in the window, as page and paper set it elsewhere: words, points, tables, pictures; sounds by their names.
/// It scrolls; set anew only when document, width or type change, and only what is in sight is drawn. Tests: desk.SharingHands.*
class DocumentPane {
 public:
  /// `revision` tells one document from the next; `document` must stay for the call only.
  void draw(const Stage& stage, const report::Document& document, std::uint64_t revision, ImVec2 size);
  /// Brings a section to the top in the next frame.
  void go_to(std::size_t section) { wanted_ = section; }

 private:
  struct Line {  ///< words in place; several lines are one entry
    ImVec2 at;
    float high = 0.0F;
    ImFont* font = nullptr;
    bool muted = false;
    bool headed = false;  ///< a section's heading
    std::string words;
  };
  struct Place {
    ImVec2 at;
    ImVec2 size;
  };
  void set(const Stage& stage, const report::Document& document, float width);
  void put(ImFont* font, bool muted, const std::string& words, float x, float width);
  void put(const Stage& stage, const report::Piece& piece, float width);
  void put(const Stage& stage, const report::Words& words, float width);
  void put(const Stage& stage, const report::Points& points, float width);
  void put(const Stage& stage, const report::Table& table, float width);
  void put(const Stage& stage, const report::Drawings& drawings, float width);
  void put(const Stage& stage, const report::Sounds& sounds, float width);
  void row(const Stage& stage, const std::vector<std::string>& cells, const report::Table& table, const std::vector<float>& widths, bool head);

  std::uint64_t revision_ = 0;
  float width_ = 0.0F;
  const ImFont* font_ = nullptr;
  float y_ = 0.0F;                  ///< where the next thing goes
  std::vector<Line> lines_;
  std::vector<float> rules_;        ///< under heads of tables
  std::vector<Place> places_;       ///< of the pictures, in the document's order
  std::deque<FigurePane> panes_;
  std::vector<float> sections_;     ///< where each begins
  std::optional<std::size_t> wanted_;
};

/// What a section holds besides words: "2 tables, 4 pictures"; empty: words only.
std::string held_words(const report::Section& section);

}  // namespace ringfall::desk
