// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/shot_loudness.h"

#include <algorithm>
#include <vector>

#include "signal/loudness_slopes.h"
#include "signal/sharpness.h"

namespace ringfall::signal {
namespace {

constexpr double kShortestSound_s = 0.010;

}  // namespace

std::optional<ShotLoudness> shot_loudness(std::span<const double> pressure_pa, double rate_hz) {
  if (static_cast<double>(pressure_pa.size()) < kShortestSound_s * rate_hz) return std::nullopt;
  const std::vector<CoreLoudness> cores = core_loudness_over_time(pressure_pa, rate_hz, SoundField::free);
  SpecificLoudness sum{};  // a mean but for its factor, which sharpness does not see
  std::vector<double> total;
  total.reserve(cores.size());
  for (std::size_t t = 0; t < cores.size(); ++t)
    total.push_back(t % kFramesPerValue == 0 ? total_loudness(cores[t], sum) : total_loudness(cores[t]));
  const std::vector<double> heard = temporally_weighted(total);
  return ShotLoudness{*std::max_element(heard.begin(), heard.end()), sharpness_acum(sum)};
}

}  // namespace ringfall::signal
