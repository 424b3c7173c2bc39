// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/ink.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"

namespace ringfall::plot {
namespace {

struct Role {
  const char* name;
  Colour light;
  Colour dark;
};

// In the order of Ink. The traces differ in lightness as well as in hue, so that they stay apart for eyes that
// lack a cone and on a grey printer; dash and marker repeat the difference.
constexpr std::array<Role, kInks> kRoles = {{
    {"paper", {255, 255, 255}, {21, 25, 29}},
    {"frame", {138, 146, 154}, {107, 117, 126}},
    {"grid", {231, 234, 237}, {40, 47, 54}},
    {"text", {32, 38, 44}, {232, 236, 239}},
    {"muted", {92, 101, 110}, {163, 173, 182}},
    {"accent", {166, 43, 80}, {240, 135, 159}},
    {"warning", {194, 59, 14}, {255, 138, 92}},
    {"fill", {222, 232, 235}, {36, 58, 68}},
    {"trace1", {17, 84, 117}, {94, 182, 219}},
    {"trace2", {190, 112, 10}, {236, 178, 84}},
    {"trace3", {168, 92, 178}, {170, 108, 200}},
    {"trace4", {42, 94, 40}, {92, 160, 84}},
    {"trace5", {206, 84, 134}, {244, 150, 190}},
    {"trace6", {80, 90, 100}, {190, 199, 207}},
}};

const Role& role_of(Ink ink) {
  const auto index = static_cast<std::size_t>(ink);
  check(index < kRoles.size(), "an ink of the list");
  return kRoles[index];
}

double linear_light(std::uint8_t value) {
  const double v = value / 255.0;
  // WCAG 2.1 prints 0.03928; the sRGB standard's 0.04045 gives the same for all 8-bit values.
  return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) {
  return 0.2126 * linear_light(c.red) + 0.7152 * linear_light(c.green) + 0.0722 * linear_light(c.blue);
}

int trace_index(Ink ink) { return static_cast<int>(ink) - static_cast<int>(Ink::trace1); }

}  // namespace

Colour colour_of(Ink ink, Theme theme) {
  return theme == Theme::light ? role_of(ink).light : role_of(ink).dark;
}

double contrast_ratio(Colour a, Colour b) {
  const auto [darker, lighter] = std::minmax({luminance(a), luminance(b)});
  return (lighter + 0.05) / (darker + 0.05);
}

Ink trace_ink(int index) {
  check(index >= 0, "the number of a trace is not negative");
  return static_cast<Ink>(static_cast<int>(Ink::trace1) + index % kTraces);
}

Dash dash_of(Ink ink) {
  constexpr std::array<Dash, kTraces> dashes = {Dash::solid,    Dash::dashed, Dash::dotted,
                                                Dash::dash_dot, Dash::solid,  Dash::dashed};
  return ink < Ink::trace1 ? Dash::solid : dashes.at(static_cast<std::size_t>(trace_index(ink)));
}

Marker marker_of(Ink ink) {
  constexpr std::array<Marker, kTraces> markers = {Marker::dot,     Marker::square,        Marker::triangle,
                                                   Marker::diamond, Marker::down_triangle, Marker::cross};
  return ink < Ink::trace1 ? Marker::dot : markers.at(static_cast<std::size_t>(trace_index(ink)));
}

const char* ink_name(Ink ink) { return role_of(ink).name; }

}  // namespace ringfall::plot
