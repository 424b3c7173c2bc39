// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/room.h"

#include <fmt/format.h>

#include <algorithm>

#include "shot/pressure_clip.h"
#include "signal/bands.h"
#include "signal/decay.h"
#include "signal/median.h"
#include "signal/segment_spectrum.h"

namespace ringfall::shot {
namespace {

constexpr double kNeeded_s = 0.200;
constexpr double kImpactLeadIn_s = 0.005;
constexpr double kClearlyLonger = 1.3;
constexpr double kRoom_s = 0.17;       // straw and foam alone die within 0.15 s (common practice, no source)
constexpr double kLowest_hz = 450.0;   // below, the shaft shaking in the butt looks like a room
constexpr double kHighest_hz = 4500.0;

}  // namespace

std::vector<std::optional<double>> impact_decay_s(const Clip& clip, const MeasureSettings& settings) {
  if (!clip.impact_sample || clip.next_shot_sample) return {};
  const PressureClip pressure(clip, Scale{});
  const double impact_s =
      static_cast<double>(*clip.impact_sample - clip.onset_sample) / clip.sample_rate_hz;
  const auto stretch = pressure.between(impact_s - kImpactLeadIn_s, pressure.end_s());
  if (static_cast<double>(stretch.size()) < kNeeded_s * clip.sample_rate_hz) return {};
  const signal::SegmentSpectrum spectrum(stretch, clip.sample_rate_hz);
  std::vector<std::optional<double>> decays;
  for (const signal::Band& band : signal::octave_bands()) {
    const auto power = spectrum.band_power(band);
    std::optional<double> late_s;
    if (power && !power->cut_at_nyquist) {
      signal::DecaySettings how;
      how.range_needed_db = settings.decay_range_needed_db;
      how.bandwidth_hz = band.high_hz - band.low_hz;
      const auto decay =
          signal::measure_decay(power->between(kImpactLeadIn_s, 1e3), power->rate_hz, std::nullopt, how);
      if (decay) late_s = decay->late_s;
    }
    decays.push_back(late_s);
  }
  return decays;
}

std::optional<Finding> judge_room(std::span<const RoomEvidence> shots) {
  const auto bands = signal::octave_bands();
  std::vector<double> room_s;
  int limited = 0;
  for (std::size_t k = 0; k < bands.size(); ++k) {
    if (bands[k].nominal_hz < kLowest_hz || bands[k].nominal_hz > kHighest_hz) continue;
    std::vector<double> impacts;
    std::vector<double> ratios;
    for (const RoomEvidence& shot : shots) {
      if (k >= shot.impact_s.size() || !shot.impact_s[k]) continue;
      impacts.push_back(*shot.impact_s[k]);
      // No single slope in an octave: bow and room are mixed there, which is the room's doing.
      const bool known = k < shot.shot_s.size() && shot.shot_s[k];
      ratios.push_back(known ? *shot.shot_s[k] / *shot.impact_s[k] : 1.0);
    }
    if (impacts.empty()) continue;
    room_s.push_back(signal::upper_median(impacts));
    if (signal::upper_median(ratios) < kClearlyLonger && room_s.back() > kRoom_s) ++limited;
  }
  if (room_s.empty() || 2 * limited <= static_cast<int>(room_s.size())) return std::nullopt;
  return Finding{
      "room_limited", Severity::caution, {Quantity::ring_down},
      fmt::format("The room rings (the arrow's impact dies away in {:.2f} s) and the bow no longer than it: early and late ring-down are "
                  "the room's as much as the bow's. Shoot outdoors or in a deader bay to compare ring-down; hum and ping are less "
                  "touched.",
                  signal::upper_median(room_s))};
}

}  // namespace ringfall::shot
