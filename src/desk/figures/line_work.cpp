// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/figures/line_work.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace ringfall::desk {
namespace {

float cross(const ImVec2& a, const ImVec2& b, const ImVec2& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool convex(const std::vector<ImVec2>& outline) {
  bool left = false;
  bool right = false;
  const std::size_t n = outline.size();
  for (std::size_t k = 0; k < n; ++k) {
    const float turn = cross(outline[k], outline[(k + 1) % n], outline[(k + 2) % n]);
    left = left || turn > 1e-4F;
    right = right || turn < -1e-4F;
  }
  return !(left && right);
}

/// ImGui joins the pieces of a line by the mean of their normals; where a line turns back that mean points along it, and the pieces
/// vanish.
bool turns_back(const ImVec2& a, const ImVec2& b, const ImVec2& c) {
  return (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0.0F;
}

bool in_triangle(const ImVec2& p, const ImVec2& a, const ImVec2& b, const ImVec2& c) {
  const float u = cross(a, b, p);
  const float v = cross(b, c, p);
  const float w = cross(c, a, p);
  return (u >= 0.0F && v >= 0.0F && w >= 0.0F) || (u <= 0.0F && v <= 0.0F && w <= 0.0F);
}

/// Cuts off one corner after the other (ear clipping); outlines here have a dozen points.
void add_hollow(ImDrawList& list, std::vector<ImVec2> rest, ImU32 colour) {
  float area = 0.0F;
  for (std::size_t k = 0; k < rest.size(); ++k) {
    const ImVec2& next = rest[(k + 1) % rest.size()];
    area += rest[k].x * next.y - next.x * rest[k].y;
  }
  while (rest.size() >= 3) {
    bool cut = false;
    for (std::size_t k = 0; k < rest.size() && !cut; ++k) {
      const std::size_t before = (k + rest.size() - 1) % rest.size();
      const std::size_t after = (k + 1) % rest.size();
      if (cross(rest[before], rest[k], rest[after]) * area < 0.0F) continue;
      bool free = true;
      for (std::size_t other = 0; other < rest.size() && free; ++other) {
        if (other == before || other == k || other == after) continue;
        free = !in_triangle(rest[other], rest[before], rest[k], rest[after]);
      }
      if (!free) continue;
      list.AddTriangleFilled(rest[before], rest[k], rest[after], colour);
      rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(k));
      cut = true;
    }
    if (!cut) return;
  }
}

}  // namespace

void thin_to_columns(std::vector<ImVec2>& points) {
  if (points.size() < 8) return;
  std::vector<ImVec2> kept;
  std::size_t begin = 0;
  while (begin < points.size()) {
    const float column = std::floor(points[begin].x);
    std::size_t end = begin + 1;
    std::size_t low = begin;
    std::size_t high = begin;
    for (; end < points.size() && std::floor(points[end].x) == column; ++end) {
      if (points[end].y < points[low].y) low = end;
      if (points[end].y > points[high].y) high = end;
    }
    std::size_t places[] = {begin, std::min(low, high), std::max(low, high), end - 1};
    for (std::size_t k = 0; k < 4; ++k) {
      if (k == 0 || places[k] != places[k - 1]) kept.push_back(points[places[k]]);
    }
    begin = end;
  }
  points = std::move(kept);
}

std::vector<std::vector<ImVec2>> dashed(const std::vector<ImVec2>& points, const std::vector<double>& lengths_px) {
  std::vector<std::vector<ImVec2>> parts;
  if (points.size() < 2 || lengths_px.empty()) return parts;
  std::size_t which = 0;
  double left = std::max(0.5, lengths_px[0]);
  parts.push_back({points[0]});
  for (std::size_t k = 1; k < points.size(); ++k) {
    ImVec2 from = points[k - 1];
    const ImVec2 to = points[k];
    double length = static_cast<double>(std::hypot(to.x - from.x, to.y - from.y));
    while (length > left) {
      const auto share = static_cast<float>(left / length);
      from = {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
      length -= left;
      if (which % 2 == 0) parts.back().push_back(from);
      else parts.push_back({from});
      ++which;
      left = std::max(0.5, lengths_px[which % lengths_px.size()]);
    }
    left -= length;
    if (which % 2 == 0) parts.back().push_back(to);
  }
  return parts;
}

void add_line(ImDrawList& list, const std::vector<ImVec2>& points, ImU32 colour, float width_px) {
  constexpr std::size_t kPiece = 4000;
  for (std::size_t begin = 0; begin + 1 < points.size();) {
    std::size_t end = begin + 1;
    while (end + 1 < points.size() && end - begin < kPiece && !turns_back(points[end - 1], points[end], points[end + 1])) ++end;
    list.AddPolyline(points.data() + begin, static_cast<int>(end - begin + 1), colour, ImDrawFlags_None, width_px);
    begin = end;
  }
}

void add_area(ImDrawList& list, const std::vector<ImVec2>& outline, ImU32 colour) {
  if (outline.size() < 3) return;
  if (convex(outline)) list.AddConvexPolyFilled(outline.data(), static_cast<int>(outline.size()), colour);
  else add_hollow(list, outline, colour);
}

}  // namespace ringfall::desk
