// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/hits.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/units.h"

namespace ringfall::shot {
namespace {

constexpr double kFrame_s = 0.0005;
constexpr double kBefore_s = 0.003;
constexpr double kApart_s = 0.002;
constexpr double kRise = 4.0;        // 6 dB in power
constexpr double kFaintest = 316.0;  // 25 dB under the strongest

}  // namespace

std::vector<Hit> find_hits(std::span<const double> pressure_pa, double sample_rate_hz, double edge_s) {
  const auto frame = static_cast<std::size_t>(std::max(std::lround(kFrame_s * sample_rate_hz), 2L));
  const double frame_s = static_cast<double>(frame) / sample_rate_hz;
  const std::size_t frames = pressure_pa.size() / frame;
  const auto edge = static_cast<std::size_t>(edge_s * sample_rate_hz);
  const auto peak_from = [&](std::size_t sample) {
    double highest = 0.0;
    const auto end = std::min(pressure_pa.size(), sample + static_cast<std::size_t>(kApart_s * sample_rate_hz));
    for (std::size_t n = sample; n < end; ++n) highest = std::max(highest, std::abs(pressure_pa[n]));
    return amplitude_to_db(highest / kReferencePressure_pa + 1e-12);
  };
  std::vector<Hit> hits;
  if (pressure_pa.size() <= edge) return hits;
  // The first difference keeps the clicks and takes the thump and the tones away.
  std::vector<double> powers(frames, 0.0);
  for (std::size_t k = 0; k < frames; ++k) {
    for (std::size_t n = std::max<std::size_t>(k * frame, 1); n < (k + 1) * frame; ++n) {
      const double step = pressure_pa[n] - pressure_pa[n - 1];
      powers[k] += step * step;
    }
  }
  hits.push_back({0.0, peak_from(edge)});
  const double strongest = powers.empty() ? 0.0 : *std::ranges::max_element(powers);
  const auto back = static_cast<std::size_t>(std::ceil(kBefore_s / frame_s));
  const auto apart = static_cast<std::size_t>(std::ceil(kApart_s / frame_s));
  std::size_t last = edge / frame;
  for (std::size_t k = last + apart; k + 1 < frames; ++k) {
    const bool crest = powers[k] >= powers[k - 1] && powers[k] > powers[k + 1];
    if (!crest || powers[k] * kFaintest < strongest || k < last + apart) continue;
    const std::size_t from = std::max(last + 1, k - std::min(k, back));
    const double lowest = *std::min_element(powers.begin() + static_cast<std::ptrdiff_t>(from),
                                            powers.begin() + static_cast<std::ptrdiff_t>(k));
    if (powers[k] < kRise * lowest) continue;
    // The attack starts in the frame where the rise does.
    std::size_t start = k;
    while (start > from && powers[start - 1] > 2.0 * lowest) --start;
    hits.push_back({static_cast<double>(start * frame) / sample_rate_hz - edge_s, peak_from(start * frame)});
    last = k;
  }
  return hits;
}

}  // namespace ringfall::shot
