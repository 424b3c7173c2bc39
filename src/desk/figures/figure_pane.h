// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/parts/stage.h"
#include "plot/figure.h"
#include "plot/layout.h"

namespace ringfall::desk {

/// Shows one figure and lets a person look into it: wheel or + and - zoom along x (with Shift along y), dragging or the arrow
/// keys move, a double click or 0 shows all again; the pointer's place is read out with its units. Laid out anew only when
/// size, range, type or figure change.
class FigurePane {
 public:
  FigurePane() = default;
  ~FigurePane();
  FigurePane(const FigurePane&) = delete;
  FigurePane& operator=(const FigurePane&) = delete;

  /// `revision` tells one figure from the next; `figure` must stay for the call only.
  void draw(const Stage& stage, const char* name, const plot::Figure& figure, std::uint64_t revision, ImVec2 size);
  /// The same to be looked at only: the wheel scrolls what is around it.
  void draw_still(const Stage& stage, const char* name, const plot::Figure& figure, std::uint64_t revision, ImVec2 size);
  /// The figure has changed a little: what is looked at closely stays in sight.
  void lay_out_anew() { stale_ = true; }
  /// What stands under the pointer, "Time 12.3 ms, Level -41 dB"; empty without one.
  const std::string& read_out() const { return read_out_; }
  /// Where the pointer is along x, in the figure's unit, when it was pressed without moving.
  std::optional<double> pressed_x() const { return pressed_x_; }

 private:
  struct View {  // what is shown of each panel; nullopt: as the figure says
    std::optional<double> x_low, x_high, y_low, y_high;
  };
  /// False: there is no room for it.
  bool take_up(const Stage& stage, const plot::Figure& figure, std::uint64_t revision, ImVec2& size);
  void paint_at(const Stage& stage, ImVec2 origin) const;
  void lay_out(const Stage& stage, const plot::Figure& figure, ImVec2 size);
  void forget_textures();
  std::optional<std::size_t> panel_at(ImVec2 pointer, ImVec2 origin, float pixels_per_pt) const;
  void zoom(std::size_t panel, bool along_y, double centre, double factor, bool together);
  void move(std::size_t panel, double by_x_pt, double by_y_pt, bool together);
  void work(const Stage& stage, const plot::Figure& figure, ImVec2 origin, float pixels_per_pt);
  void point_out(const Stage& stage, const plot::Figure& figure, std::size_t panel, ImVec2 origin, float pixels_per_pt);

  plot::LaidOut laid_out_;
  std::vector<View> views_;
  std::vector<ImTextureID> made_;
  Textures* owner_ = nullptr;
  std::uint64_t revision_ = 0;
  ImVec2 size_{0.0F, 0.0F};
  const ImFont* font_ = nullptr;
  plot::Theme theme_ = plot::Theme::dark;
  bool stale_ = true;
  std::string read_out_;
  std::optional<double> pressed_x_;
};

/// A place in a panel in words: "Time 12.3 ms, Frequency 96.1 Hz".
std::string place_words(const plot::Panel& panel, const plot::Frame& frame, plot::Point at);

}  // namespace ringfall::desk
