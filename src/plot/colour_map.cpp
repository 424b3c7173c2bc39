// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/colour_map.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ringfall::plot {
namespace {

/// CIE 1976 L*a*b* (white D65) to linear sRGB; both by IEC 61966-2-1 and CIE 15.
std::array<double, 3> linear_srgb(double lightness, double a, double b) {
  const auto undo = [](double f) {
    return f > 6.0 / 29.0 ? f * f * f : 3.0 * (6.0 / 29.0) * (6.0 / 29.0) * (f - 4.0 / 29.0);
  };
  const double fy = (lightness + 16.0) / 116.0;
  const double x = 0.95047 * undo(fy + a / 500.0);
  const double y = undo(fy);
  const double z = 1.08883 * undo(fy - b / 200.0);
  return {3.2406 * x - 1.5372 * y - 0.4986 * z, -0.9689 * x + 1.8758 * y + 0.0415 * z,
          0.0557 * x - 0.2040 * y + 1.0570 * z};
}

bool displayable(const std::array<double, 3>& rgb) {
  return std::ranges::all_of(rgb, [](double v) { return v >= -1e-4 && v <= 1.0001; });
}

std::uint8_t stored(double linear) {
  const double v = std::clamp(linear, 0.0, 1.0);
  const double coded = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(coded * 255.0));
}

/// 0 the lowest level .. 1 the highest.
Colour ramp(double part, Theme theme) {
  const double lightness = theme == Theme::light ? 98.0 - 84.0 * part : 12.0 + 84.0 * part;
  const double darkness = theme == Theme::light ? part : 1.0 - part;
  const double hue = (178.0 + 122.0 * darkness) * std::numbers::pi / 180.0;
  double chroma = 5.0 + 37.0 * std::sin(std::numbers::pi * std::pow(darkness, 1.1));
  // Lightness and hue are kept; a chroma the screen cannot show is lowered.
  std::array<double, 3> rgb = linear_srgb(lightness, chroma * std::cos(hue), chroma * std::sin(hue));
  while (!displayable(rgb) && chroma > 0.0) {
    chroma -= 0.25;
    rgb = linear_srgb(lightness, chroma * std::cos(hue), chroma * std::sin(hue));
  }
  return {stored(rgb[0]), stored(rgb[1]), stored(rgb[2])};
}

std::array<Colour, 256> ramp_of(Theme theme) {
  std::array<Colour, 256> colours{};
  colours[0] = colour_of(Ink::paper, theme);
  for (std::size_t step = 1; step < colours.size(); ++step) {
    colours[step] = ramp(static_cast<double>(step - 1) / 254.0, theme);
  }
  return colours;
}

}  // namespace

Colour level_colour(std::uint8_t step, Theme theme) {
  static const std::array<Colour, 256> light = ramp_of(Theme::light);
  static const std::array<Colour, 256> dark = ramp_of(Theme::dark);
  return theme == Theme::light ? light[step] : dark[step];
}

}  // namespace ringfall::plot
