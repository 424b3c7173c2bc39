// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tail_disturbance.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

#include "base/units.h"
#include "signal/bands.h"

namespace ringfall::shot {
namespace {

constexpr double kLookFrom_s = 0.030;   // slaps and string blows have gone by (common practice, no source)
constexpr double kFrame_s = 0.006;
constexpr double kRise_db = 4.0;        // good tails rise by 2.9 at most, spoiled ones by 6.6 at least (hard_ground.md)
constexpr double kGuard_s = 0.006;      // the rise begins before it is seen
constexpr int kOctavesApart = 2;         // a mode between two octaves is heard in both
constexpr double kLowestOctave_hz = 200.0;
constexpr double kSlowestBuzz_hz = 20.0;
constexpr double kMatters_db = 60.0;   // what is further under the loudest frame changes no number
constexpr double kQuiet_pa2 = 1e-14;

struct Rise {
  std::size_t first = 0;    ///< frame where it begins
  std::size_t highest = 0;  ///< frame where it has reached the limit
};

std::vector<double> frame_levels_db(std::span<const double> mean_square, double rate_hz, double begin_s, double frame_s) {
  std::vector<double> levels;
  for (std::size_t k = 0;; ++k) {
    const auto at = [&](std::size_t frame) {
      return static_cast<std::size_t>(std::lround((begin_s + static_cast<double>(frame) * frame_s) * rate_hz));
    };
    const std::size_t begin = at(k);
    const std::size_t end = std::max(at(k + 1), begin + 1);
    if (end > mean_square.size()) return levels;
    double sum = 0.0;
    for (std::size_t n = begin; n < end; ++n) sum += mean_square[n];
    levels.push_back(power_to_db(sum / static_cast<double>(end - begin) + kQuiet_pa2));
  }
}

std::vector<double> medians_of_three(const std::vector<double>& levels) {
  std::vector<double> smooth(levels);
  for (std::size_t k = 1; k + 1 < levels.size(); ++k) {
    smooth[k] = std::max(std::min(levels[k - 1], levels[k]), std::min(std::max(levels[k - 1], levels[k]), levels[k + 1]));
  }
  // The last frame has no right neighbour: a foreign beginning there is caught by neither, and spoils little.
  if (!smooth.empty()) smooth.pop_back();
  return smooth;
}

std::optional<Rise> first_rise(const std::vector<double>& levels, double floor_db, std::size_t from) {
  double lowest = std::numeric_limits<double>::max();
  std::size_t lowest_at = from;
  for (std::size_t k = from; k < levels.size(); ++k) {
    if (levels[k] <= lowest) {
      lowest = levels[k];
      lowest_at = k;
    }
    if (levels[k] > std::max(lowest, floor_db) + kRise_db) {
      std::size_t first = k;
      // Back to where it still was at its lowest, or on the floor.
      while (first > lowest_at + 1 && levels[first - 1] > std::max(lowest, floor_db) + 1.0) --first;
      return Rise{first, k};
    }
  }
  return std::nullopt;
}

double floor_level(std::optional<double> mean_square) {
  return mean_square ? power_to_db(*mean_square + kQuiet_pa2) : power_to_db(kQuiet_pa2);
}

/// How many octaves the highest that rises lies over the lowest.
int octaves_risen(const ShotSegment& segment, const Rise& rise, double frame_s) {
  const double begin_s = segment.edge_s + kLookFrom_s;
  int lowest = -1;
  int highest = -1;
  int octave = 0;
  for (const signal::Band& band : signal::octave_bands()) {
    ++octave;
    if (band.nominal_hz < kLowestOctave_hz) continue;
    const auto power = segment.spectrum.band_power(band);
    if (!power) continue;
    const auto levels = frame_levels_db(power->mean_square_pa2, power->rate_hz, begin_s, frame_s);
    if (levels.empty()) continue;
    const std::size_t from = rise.first - std::min<std::size_t>(rise.first, 4);
    const std::size_t before_end = std::min(rise.first + 1, levels.size());
    const std::size_t end = std::min(rise.highest + 4, levels.size());
    if (from >= before_end || rise.first >= end) continue;
    const double before = *std::min_element(levels.begin() + static_cast<std::ptrdiff_t>(from), levels.begin() + static_cast<std::ptrdiff_t>(before_end));
    const double after = *std::max_element(levels.begin() + static_cast<std::ptrdiff_t>(rise.first), levels.begin() + static_cast<std::ptrdiff_t>(end));
    if (after - before <= kRise_db) continue;
    if (lowest < 0) lowest = octave;
    highest = octave;
  }
  return highest - lowest;
}

}  // namespace

std::optional<double> tail_disturbance_s(const ShotSegment& segment, const Floor& floor, std::optional<double> buzz_rate_hz) {
  const double frame_s =
      buzz_rate_hz && *buzz_rate_hz >= kSlowestBuzz_hz ? std::max(kFrame_s, 1.0 / *buzz_rate_hz) : kFrame_s;
  std::vector<double> squares(segment.a_weighted_pa.size());
  std::ranges::transform(segment.a_weighted_pa, squares.begin(), [](double value) { return value * value; });
  const auto levels = medians_of_three(
      frame_levels_db(squares, segment.spectrum.sample_rate_hz(), segment.edge_s + kLookFrom_s, frame_s));
  const auto loud = frame_levels_db(squares, segment.spectrum.sample_rate_hz(), segment.edge_s, kFrame_s);
  double floor_db = floor_level(floor.a_pa2);
  if (!loud.empty()) floor_db = std::max(floor_db, *std::ranges::max_element(loud) - kMatters_db);
  std::size_t from = 0;
  while (const auto rise = first_rise(levels, floor_db, from)) {
    if (octaves_risen(segment, *rise, frame_s) >= kOctavesApart) {
      return std::max(kLookFrom_s + static_cast<double>(rise->first) * frame_s - kGuard_s, kLookFrom_s);
    }
    from = rise->highest + 1;  // a beat: what comes after it is looked at afresh
  }
  return std::nullopt;
}

}  // namespace ringfall::shot
