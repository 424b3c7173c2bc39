// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/base64.h"
#include "base/check.h"
#include "plot/cairo_paint.h"
#include "plot/cues.h"
#include "plot/text_width.h"
#include "plot/write.h"

namespace ringfall::plot {
namespace {

/// To 0.01 pt without trailing zeros.
std::string number(double value) {
  const auto hundredths = static_cast<long>(std::lround(value * 100.0));
  return fmt::format("{}", static_cast<double>(hundredths) / 100.0);
}

std::string hex(Colour colour) { return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue); }

std::string path_of(const std::vector<Point>& points) {
  std::string path;
  for (const Point& point : points) {
    path += (path.empty() ? "M" : "L") + number(point.x) + " " + number(point.y);
  }
  return path;
}

std::string rect_attributes(const Rect& place) {
  return fmt::format(R"(x="{}" y="{}" width="{}" height="{}")", number(place.left), number(place.top),
                     number(place.width()), number(place.height()));
}

std::string dash_attribute(const Polyline& line) {
  std::string lengths;
  for (const double length : dash_lengths(line.dash, line.width_pt)) lengths += (lengths.empty() ? "" : " ") + number(length);
  return lengths.empty() ? "" : " stroke-dasharray=\"" + lengths + "\"";
}

const char* anchor_attribute(Anchor anchor) {
  switch (anchor) {
    case Anchor::start: return "";
    case Anchor::middle: return " text-anchor=\"middle\"";
    case Anchor::end: return " text-anchor=\"end\"";
  }
  return "";
}

}  // namespace

std::string svg_text(const Picture& picture, Theme theme, std::string_view id_prefix,
                     std::string_view description) {
  check(!id_prefix.empty(), "an id prefix keeps several pictures in a page apart");
  const auto colour = [theme](Ink ink) { return hex(colour_of(ink, theme)); };
  std::string svg = fmt::format(
      R"(<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" role="img" )"
      R"(width="{0}pt" height="{1}pt" viewBox="0 0 {0} {1}" font-family="'{2}', sans-serif">)" "\n",
      number(picture.width_pt), number(picture.height_pt), kFontFamily);
  if (!description.empty()) svg += "<title>" + xml_text(description) + "</title>\n";
  svg += fmt::format(R"(<rect width="{}" height="{}" fill="{}"/>)" "\n", number(picture.width_pt),
                     number(picture.height_pt), colour(Ink::paper));
  int clips = 0;
  const Overloaded element{
      [&](const Polyline& line) {
        return fmt::format(R"(<path d="{}" fill="none" stroke="{}" stroke-width="{}" stroke-linejoin="round"{}/>)" "\n",
                           path_of(line.points), colour(line.ink), number(line.width_pt), dash_attribute(line));
      },
      [&](const Filled& area) {
        const std::string opacity =
            area.opacity < 1.0 ? " fill-opacity=\"" + number(area.opacity) + "\"" : "";
        return fmt::format(R"(<path d="{}Z" fill="{}"{}/>)" "\n", path_of(area.outline), colour(area.ink), opacity);
      },
      [&](const Text& text) {
        // white-space: an SVG reader would otherwise fold double spaces.
        return fmt::format(R"(<text x="{}" y="{}" font-size="{}" fill="{}"{} style="white-space:pre">{}</text>)" "\n",
                           number(text.at.x), number(text.at.y), number(text.size_pt), colour(text.ink),
                           anchor_attribute(text.anchor), xml_text(text.words));
      },
      [&](const Image& image) {
        return fmt::format(
            R"(<image {} preserveAspectRatio="none" image-rendering="auto" xlink:href="data:image/png;base64,{}"/>)" "\n",
            rect_attributes(image.place), base64_text(image_png(image, theme)));
      },
      [&](const Clip& clip) {
        const std::string id = fmt::format("{}-clip{}", id_prefix, ++clips);
        return fmt::format(R"x(<clipPath id="{0}"><rect {1}/></clipPath><g clip-path="url(#{0})">)x" "\n", id,
                           rect_attributes(clip.place));
      },
      [](const Unclip&) { return std::string("</g>\n"); },
  };
  for (const Mark& mark : picture.marks) svg += std::visit(element, mark);
  return svg + "</svg>\n";
}

}  // namespace ringfall::plot
