// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness_slopes.h"

#include <algorithm>

namespace ringfall::signal {
namespace {

constexpr double kBeyond_bark = 0.0001;  // so that a value on a limit belongs to the band below it
constexpr std::size_t kLastRange = 17;

/// kUpperSlopes with bands as rows, and their inverses: a division a piece is saved.
struct SlopeRows {
  std::array<double, 18> above;
  std::array<std::array<double, 18>, 8> fall, run;

  SlopeRows() {
    for (std::size_t j = 0; j < above.size(); ++j) {
      above[j] = kUpperSlopes[j].above_sone_per_bark;
      for (std::size_t c = 0; c < fall.size(); ++c) {
        fall[c][j] = kUpperSlopes[j].steepness[c];
        run[c][j] = 1.0 / fall[c][j];
      }
    }
  }
};

/// Walks over the pieces; `piece(z1, z2, n1, fall)`: from z1 to z2, n1 at z1, falling.
template <class Piece>
double walk(const CoreLoudness& core, Piece&& piece) {
  static const SlopeRows slopes;
  double total = 0.0, z1 = 0.0, n1 = 0.0;
  std::size_t range = kLastRange;
  for (std::size_t i = 0; i <= kCriticalBands; ++i) {
    const double n_core = i < kCriticalBands ? core[i] : 0.0;
    const double limit = kUpperLimit_bark[i] + kBeyond_bark;
    const std::size_t column = std::min<std::size_t>(i == 0 ? 0 : i - 1, 7);
    if (n1 < n_core) {  // the band stands above what reaches it from below
      range = 0;
      while (range < kLastRange && slopes.above[range] > n_core) ++range;
      n1 = n_core;
    }
    while (n1 > n_core) {
      const double fall = slopes.fall[column][range];
      double n2 = std::max(n_core, slopes.above[range]);
      double z2 = z1 + (n1 - n2) * slopes.run[column][range];
      const bool ends_here = z2 > limit;
      if (ends_here) {
        z2 = limit;
        n2 = n1 - (z2 - z1) * fall;
      }
      total += (z2 - z1) * (n1 + n2);
      piece(z1, z2, n1, fall);
      while (range < kLastRange && n2 <= slopes.above[range]) ++range;
      z1 = z2;
      n1 = n2;
      if (ends_here) break;
    }
    if (z1 < limit) {  // level with the core to the end of the band
      total += 2.0 * n1 * (limit - z1);
      piece(z1, limit, n1, 0.0);
      while (range < kLastRange && n1 <= slopes.above[range]) ++range;
      z1 = limit;
    }
  }
  return 0.5 * total;
}

}  // namespace

double total_loudness(const CoreLoudness& core) {
  return walk(core, [](double, double, double, double) {});
}

double total_loudness(const CoreLoudness& core, SpecificLoudness& specific) {
  std::size_t k = 0;
  return walk(core, [&](double z1, double z2, double n1, double fall) {
    for (; k < kSpecificValues; ++k) {
      const double z = 0.1 * static_cast<double>(k + 1);
      if (z > z2) break;
      specific[k] += n1 - (z - z1) * fall;
    }
  });
}

}  // namespace ringfall::signal
