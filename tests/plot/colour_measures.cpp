// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/colour_measures.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ringfall::plot {
namespace {

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

double decoded(std::uint8_t value) {
  const double v = value / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

std::uint8_t encoded(double v) {
  v = std::clamp(v, 0.0, 1.0);
  return static_cast<std::uint8_t>(std::lround(255.0 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055)));
}

Triple times(const Matrix& m, const Triple& v) {
  Triple result{};
  for (std::size_t r = 0; r < 3; ++r) result[r] = m[r][0] * v[0] + m[r][1] * v[1] + m[r][2] * v[2];
  return result;
}

Triple linear(Colour c) { return {decoded(c.red), decoded(c.green), decoded(c.blue)}; }

Triple lab(Colour c) {
  // IEC 61966-2-1; white D65.
  const Matrix to_xyz = {{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}};
  const Triple xyz = times(to_xyz, linear(c));
  const auto f = [](double t) { return t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0; };
  const double fx = f(xyz[0] / 0.9505), fy = f(xyz[1]), fz = f(xyz[2] / 1.089);
  return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

}  // namespace

double lightness(Colour colour) { return lab(colour)[0]; }

double colour_difference(Colour a, Colour b) {
  const Triple p = lab(a), q = lab(b);
  return std::sqrt(std::pow(p[0] - q[0], 2.0) + std::pow(p[1] - q[1], 2.0) + std::pow(p[2] - q[2], 2.0));
}

Colour seen_with(Vision vision, Colour colour) {
  const Matrix no_l = {{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
  const Matrix no_m = {{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
  if (vision == Vision::all) return colour;
  const Triple seen = times(vision == Vision::no_l_cone ? no_l : no_m, linear(colour));
  return {encoded(seen[0]), encoded(seen[1]), encoded(seen[2])};
}

}  // namespace ringfall::plot
