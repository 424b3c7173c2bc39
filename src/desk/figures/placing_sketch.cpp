// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/figures/placing_sketch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "desk/figures/painter.h"

namespace ringfall::desk {
namespace {

constexpr double kWords_pt = 9.0;
// Seen from above, metres from where the archer stands on the line: x towards the target, y to the archer's bow side.
constexpr double kGripForward_m = 0.60;
constexpr double kMicrophoneBehind_m = 0.15;
constexpr double kMicrophoneBeside_m = 0.66;  // so it is 1.0 m from the grip
constexpr double kBow_m = 0.35;               // half of what is drawn of it

std::vector<plot::Point> ring(plot::Point middle, double radius_pt) {
  std::vector<plot::Point> points;
  constexpr int kCorners = 24;
  for (int k = 0; k < kCorners; ++k) {
    const double turn = 2.0 * std::numbers::pi * k / kCorners;
    points.push_back({middle.x + radius_pt * std::cos(turn), middle.y + radius_pt * std::sin(turn)});
  }
  return points;
}

}  // namespace

plot::Picture placing_sketch(double width_pt, double height_pt) {
  using plot::Anchor, plot::Dash, plot::Filled, plot::Ink, plot::Point, plot::Polyline, plot::Text;
  plot::Picture picture{width_pt, height_pt, {}};
  const auto add = [&picture](plot::Mark mark) { picture.marks.push_back(std::move(mark)); };
  const double metre_pt = std::min(0.26 * width_pt, (height_pt - 4.0 * kWords_pt) / 1.5);
  const double line = 0.36 * width_pt;
  const double feet = 2.0 * kWords_pt + 0.40 * metre_pt;
  const auto at = [&](double forward_m, double beside_m) { return Point{line + forward_m * metre_pt, feet + beside_m * metre_pt}; };
  const Point grip = at(kGripForward_m, 0.0);
  const Point microphone = at(-kMicrophoneBehind_m, kMicrophoneBeside_m);
  add(Filled{plot::outline_of({line, 0.0, width_pt, height_pt}), Ink::fill, 1.0});
  add(Polyline{{{line, 0.0}, {line, height_pt}}, Ink::accent, 1.6, Dash::solid});
  add(Text{{line - 5.0, kWords_pt + 1.0}, "shooting line", kWords_pt, Ink::text, Anchor::end});
  add(Text{{0.5 * (line + width_pt), kWords_pt + 1.0}, "nobody and no microphone here", kWords_pt, Ink::warning, Anchor::middle});
  // The archer, the bow and where the arrow goes.
  add(Filled{ring(at(0.0, 0.0), 0.13 * metre_pt), Ink::text, 1.0});
  add(Polyline{{at(0.0, 0.0), grip}, Ink::text, 3.0, Dash::solid});
  add(Polyline{{at(kGripForward_m - 0.12, -kBow_m), grip, at(kGripForward_m - 0.12, kBow_m)}, Ink::text, 1.6, Dash::solid});
  add(Text{{at(-0.2, 0.0).x, feet + 0.35 * kWords_pt}, "archer", kWords_pt, Ink::text, Anchor::end});
  const double target = width_pt - 12.0;
  add(Polyline{{grip, {target, grip.y}}, Ink::muted, 1.0, Dash::dashed});
  add(Polyline{{{target, grip.y - 0.3 * metre_pt}, {target, grip.y + 0.3 * metre_pt}}, Ink::text, 4.0, Dash::solid});
  add(Text{{target - 8.0, grip.y - 4.0}, "11 m or more", kWords_pt, Ink::muted, Anchor::end});
  // The microphone and how far it is.
  add(Polyline{{grip, microphone}, Ink::accent, 1.0, Dash::dotted});
  const Point half = {0.5 * (grip.x + microphone.x), 0.5 * (grip.y + microphone.y)};
  add(Text{{half.x + 8.0, half.y + kWords_pt}, "1 m", kWords_pt, Ink::text, Anchor::start});
  add(Filled{ring(microphone, 5.0), Ink::accent, 1.0});
  add(Text{{microphone.x - 9.0, microphone.y + 0.35 * kWords_pt}, "microphone", kWords_pt, Ink::text, Anchor::end});
  add(Text{{microphone.x - 9.0, microphone.y + 1.7 * kWords_pt}, "1.2 to 1.5 m high", 0.9 * kWords_pt, Ink::muted, Anchor::end});
  return picture;
}

void draw_placing_sketch(const Stage& stage, ImVec2 size) {
  const float pixels_per_pt = kPixelsPerPoint * stage.scale;
  paint(placing_sketch(static_cast<double>(size.x / pixels_per_pt), static_cast<double>(size.y / pixels_per_pt)), {},
        {ImGui::GetWindowDrawList(), ImGui::GetCursorScreenPos(), pixels_per_pt, &stage.fonts, stage.palette.theme});
  ImGui::Dummy(size);
  stage.name_last("placing sketch");
}

}  // namespace ringfall::desk
