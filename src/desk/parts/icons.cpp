// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/icons.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <vector>

namespace ringfall::desk {
namespace {

constexpr float kPi = 3.14159265F;

class Pen {
 public:
  Pen(ImDrawList& list, ImVec2 centre, float size, ImU32 colour)
      : list_(list), centre_(centre), half_(0.5F * size), colour_(colour), width_(std::max(1.0F, std::round(size / 9.0F))) {}

  /// Places run from -1 to 1.
  ImVec2 at(float x, float y) const { return {centre_.x + half_ * x, centre_.y + half_ * y}; }
  void line(std::initializer_list<ImVec2> places, bool closed = false) const {
    std::vector<ImVec2> points;
    for (const ImVec2& place : places) points.push_back(at(place.x, place.y));
    list_.AddPolyline(points.data(), static_cast<int>(points.size()), colour_, closed ? ImDrawFlags_Closed : ImDrawFlags_None,
                      width_);
  }
  void area(std::initializer_list<ImVec2> places) const {
    std::vector<ImVec2> points;
    for (const ImVec2& place : places) points.push_back(at(place.x, place.y));
    list_.AddConvexPolyFilled(points.data(), static_cast<int>(points.size()), colour_);
  }
  void arc(float x, float y, float radius, float from, float to) const {
    list_.PathArcTo(at(x, y), radius * half_, from * kPi, to * kPi, 20);
    list_.PathStroke(colour_, ImDrawFlags_None, width_);
  }

 private:
  ImDrawList& list_;
  ImVec2 centre_;
  float half_;
  ImU32 colour_;
  float width_;
};

}  // namespace

void draw_icon(ImDrawList& list, Icon icon, ImVec2 centre, float size, ImU32 colour) {
  const Pen pen(list, centre, size, colour);
  switch (icon) {
    case Icon::none: break;
    case Icon::play: pen.area({{-0.6F, -0.85F}, {0.85F, 0.0F}, {-0.6F, 0.85F}}); break;
    case Icon::stop: pen.area({{-0.7F, -0.7F}, {0.7F, -0.7F}, {0.7F, 0.7F}, {-0.7F, 0.7F}}); break;
    case Icon::loop:
      pen.arc(0.0F, 0.0F, 0.75F, -0.4F, 1.2F);
      pen.area({{0.05F, -1.0F}, {0.75F, -0.75F}, {0.15F, -0.3F}});
      break;
    case Icon::cross:
      pen.line({{-0.7F, -0.7F}, {0.7F, 0.7F}});
      pen.line({{-0.7F, 0.7F}, {0.7F, -0.7F}});
      break;
    case Icon::undo:
      pen.arc(0.05F, 0.25F, 0.65F, -1.0F, 0.35F);
      pen.area({{-0.95F, 0.1F}, {-0.25F, 0.1F}, {-0.6F, 0.75F}});
      break;
    case Icon::plus:
      pen.line({{-0.8F, 0.0F}, {0.8F, 0.0F}});
      pen.line({{0.0F, -0.8F}, {0.0F, 0.8F}});
      break;
    case Icon::folder:
      pen.line({{-0.9F, 0.7F}, {-0.9F, -0.6F}, {-0.3F, -0.6F}, {-0.1F, -0.3F}, {0.9F, -0.3F}, {0.9F, 0.7F}}, true);
      break;
    case Icon::tick: pen.line({{-0.8F, 0.0F}, {-0.2F, 0.65F}, {0.85F, -0.65F}}); break;
    case Icon::caution:
      pen.line({{0.0F, -0.9F}, {0.95F, 0.8F}, {-0.95F, 0.8F}}, true);
      pen.line({{0.0F, -0.25F}, {0.0F, 0.25F}});
      pen.line({{0.0F, 0.45F}, {0.0F, 0.58F}});
      break;
    case Icon::halo:  // half sun, half night
      pen.arc(0.0F, 0.0F, 0.75F, 0.0F, 2.0F);
      list.PathArcTo(centre, 0.37F * size, -0.5F * kPi, 0.5F * kPi, 16);
      list.PathFillConvex(colour);
      break;
    case Icon::ear:
      pen.arc(0.0F, -0.25F, 0.65F, -1.0F, 0.25F);
      pen.line({{-0.65F, -0.25F}, {-0.5F, 0.5F}, {-0.1F, 0.9F}});
      pen.arc(0.0F, -0.25F, 0.3F, -1.0F, 0.5F);
      break;
    case Icon::page:
      pen.line({{-0.65F, -0.9F}, {0.3F, -0.9F}, {0.7F, -0.5F}, {0.7F, 0.9F}, {-0.65F, 0.9F}}, true);
      pen.line({{-0.3F, 0.0F}, {0.35F, 0.0F}});
      pen.line({{-0.3F, 0.4F}, {0.35F, 0.4F}});
      break;
    case Icon::grow:
      pen.line({{0.1F, -0.8F}, {0.8F, -0.8F}, {0.8F, -0.1F}});
      pen.line({{-0.1F, 0.8F}, {-0.8F, 0.8F}, {-0.8F, 0.1F}});
      pen.line({{0.8F, -0.8F}, {-0.8F, 0.8F}});
      break;
    case Icon::shrink:
      pen.line({{0.9F, -0.1F}, {0.1F, -0.1F}, {0.1F, -0.9F}});
      pen.line({{-0.9F, 0.1F}, {-0.1F, 0.1F}, {-0.1F, 0.9F}});
      break;
    case Icon::pen:
      pen.line({{-0.85F, 0.85F}, {-0.65F, 0.2F}, {0.4F, -0.85F}, {0.85F, -0.4F}, {-0.2F, 0.65F}}, true);
      pen.line({{0.1F, -0.55F}, {0.55F, -0.1F}});
      break;
  }
}

void draw_mark(ImDrawList& list, ImVec2 left_middle, float width, float height, ImU32 colour, float thickness) {
  constexpr int kSteps = 64;
  std::vector<ImVec2> points = {left_middle};
  const float begin = 0.16F;
  points.push_back({left_middle.x + begin * width, left_middle.y});
  for (int k = 0; k <= kSteps; ++k) {
    const float t = static_cast<float>(k) / kSteps;
    const float swing = std::cos(t * 9.0F * kPi) * std::exp(-3.6F * t);
    points.push_back({left_middle.x + width * (begin + (1.0F - begin) * t), left_middle.y - 0.5F * height * swing});
  }
  list.AddPolyline(points.data(), static_cast<int>(points.size()), colour, ImDrawFlags_None, thickness);
}

}  // namespace ringfall::desk
