// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdint>

#include "plot/cues.h"
#include "plot/write.h"

namespace ringfall::plot {
namespace {

/// To 0.01 pt, and no "-0.00" that would differ between machines.
std::string rounded(double value) {
  std::string text = fmt::format("{:.2f}", value);
  return text == "-0.00" ? "0.00" : text;
}

std::string points_text(const std::vector<Point>& points) {
  std::string text;
  for (const Point& point : points) text += " " + rounded(point.x) + "," + rounded(point.y);
  return text;
}

std::string rect_text(const Rect& place) {
  return fmt::format("{},{} {},{}", rounded(place.left), rounded(place.top), rounded(place.right),
                     rounded(place.bottom));
}

/// FNV-1a of 64 bits: enough to see that an image changed.
std::uint64_t fingerprint(const std::vector<std::uint8_t>& bytes) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const std::uint8_t byte : bytes) hash = (hash ^ byte) * 0x100000001b3u;
  return hash;
}

const char* anchor_name(Anchor anchor) {
  switch (anchor) {
    case Anchor::start: return "start";
    case Anchor::middle: return "middle";
    case Anchor::end: return "end";
  }
  return "";
}

}  // namespace

std::string trace_text(const Picture& picture) {
  std::string text = fmt::format("picture {} {}\n", rounded(picture.width_pt), rounded(picture.height_pt));
  const Overloaded line_of{
      [](const Polyline& line) {
        return fmt::format("line {} {} {}{}\n", ink_name(line.ink), rounded(line.width_pt),
                           dash_name(line.dash), points_text(line.points));
      },
      [](const Filled& area) {
        return fmt::format("area {} {}{}\n", ink_name(area.ink), rounded(area.opacity),
                           points_text(area.outline));
      },
      [](const Text& words) {
        return fmt::format("text {} {} {} {},{} {}\n", ink_name(words.ink), rounded(words.size_pt),
                           anchor_name(words.anchor), rounded(words.at.x), rounded(words.at.y), words.words);
      },
      [](const Image& image) {
        return fmt::format("image {} {}x{} {:016x}\n", rect_text(image.place), image.columns, image.rows,
                           fingerprint(image.steps));
      },
      [](const Clip& clip) { return "clip " + rect_text(clip.place) + "\n"; },
      [](const Unclip&) { return std::string("unclip\n"); },
  };
  for (const Mark& mark : picture.marks) text += std::visit(line_of, mark);
  return text;
}

}  // namespace ringfall::plot
