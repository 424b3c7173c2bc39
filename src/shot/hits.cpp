// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/hits.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/units.h"
#include "signal/onset.h"

namespace ringfall::shot {
namespace {

constexpr double kHitFrame_s = 0.0005;
constexpr double kHitsApart_s = 0.002;
constexpr double kRise = 3.2;             // 5 dB in power, over what the sound before would still be
constexpr double kFaintestHit = 316.0;       // 25 dB under the strongest
constexpr double kEarly_s = 0.010;
constexpr double kEarlyFall_db_ms = 2.5;  // an attack's own noise falls at least this fast
constexpr double kLateFall_db_ms = 0.8;   // tones that beat come back up within this
constexpr double kHitSilence_pa2 = 1e-14;        // Pa^2

/// What of the loudest past may still be there: falls slowly, rises at once.
std::vector<double> expected_powers(const std::vector<double>& powers, double frame_ms, std::size_t edge) {
  std::vector<double> expected(powers.size(), 0.0);
  double follow = 0.0;
  for (std::size_t k = 0; k < powers.size(); ++k) {
    const double since_ms = (static_cast<double>(k) - static_cast<double>(edge)) * frame_ms;
    const double fall_db = frame_ms * (since_ms < 1000.0 * kEarly_s ? kEarlyFall_db_ms : kLateFall_db_ms);
    expected[k] = follow;
    // A frame counts as past only when the next one has gone by: an attack's rise may span two.
    follow *= db_to_power(-fall_db);
    if (k >= 1) follow = std::max(follow, powers[k - 1] * db_to_power(-2.0 * fall_db));
  }
  return expected;
}

}  // namespace

std::vector<Hit> find_hits(std::span<const double> pressure_pa, double sample_rate_hz, double edge_s) {
  const auto in_samples = [&](double seconds) { return static_cast<std::size_t>(std::lround(seconds * sample_rate_hz)); };
  const std::size_t frame = std::max<std::size_t>(in_samples(kHitFrame_s), 2);
  const double frame_ms = 1000.0 * static_cast<double>(frame) / sample_rate_hz;
  const auto edge = static_cast<std::size_t>(edge_s * sample_rate_hz);
  std::vector<Hit> hits;
  if (pressure_pa.size() <= edge) return hits;
  const auto peak_db = [&](std::size_t from, std::size_t to) {
    double highest = 0.0;
    for (std::size_t n = from; n < std::min(to, pressure_pa.size()); ++n) highest = std::max(highest, std::abs(pressure_pa[n]));
    return amplitude_to_db(highest / kReferencePressure_pa + 1e-12);
  };
  // The first difference keeps the clicks and takes the thump and the low tones away.
  std::vector<float> steps(pressure_pa.size(), 0.0F);
  for (std::size_t n = 1; n < steps.size(); ++n) steps[n] = static_cast<float>(pressure_pa[n] - pressure_pa[n - 1]);
  std::vector<double> powers(steps.size() / frame, kHitSilence_pa2);
  for (std::size_t k = 0; k < powers.size(); ++k) {
    for (std::size_t n = k * frame; n < (k + 1) * frame; ++n) powers[k] += static_cast<double>(steps[n]) * static_cast<double>(steps[n]);
  }
  hits.push_back({0.0, peak_db(edge, edge + in_samples(kHitsApart_s))});
  if (powers.size() < 4) return hits;
  const double strongest = *std::ranges::max_element(powers);
  const auto expected = expected_powers(powers, frame_ms, edge / frame);
  const std::size_t apart = std::max<std::size_t>(static_cast<std::size_t>(std::ceil(1000.0 * kHitsApart_s / frame_ms)), 1);
  for (std::size_t k = edge / frame + apart; k + 1 < powers.size(); ++k) {
    const bool sudden = powers[k] > kRise * expected[k] && powers[k] > kRise * powers[k - 2];
    if (!sudden || powers[k] * kFaintestHit < strongest) continue;
    if (powers[k + 1] > 2.0 * powers[k]) continue;  // the next frame shows it better
    const auto rise = signal::steepest_rise(steps, sample_rate_hz, (k - 2) * frame, (k + 1) * frame, kHitSilence_pa2);
    const double lag_s = rise.position / sample_rate_hz - edge_s;
    if (lag_s < kHitsApart_s) continue;
    const auto start = static_cast<std::size_t>(rise.position);
    hits.push_back({lag_s, peak_db(start, start + in_samples(kHitsApart_s))});
    k += apart - 1;
  }
  return hits;
}

}  // namespace ringfall::shot
