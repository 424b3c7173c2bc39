// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/onset_candidate.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

#include "base/units.h"
#include "signal/onset.h"

namespace ringfall::shot {
namespace {

constexpr double kBefore_s = 0.012;      // stretch looked at before the hint
constexpr double kOnsetSilence = 1e-12;       // below 16-bit rounding: keeps ratios finite
constexpr double kRounding = 1e-9;       // 16-bit rounding: below it a rise means nothing
constexpr std::int64_t kEdgeHops = 8;    // the loud edge comes within 8 ms of the hint ...
constexpr std::int64_t kPreEchoHops = 20;  // ... but a lossy coder smears it over the frame before: 13 ms at 44.1 and 48 kHz
constexpr double kOverPreEcho = 10.0;    // 10 dB in power; what is less far above is a part of the same edge
constexpr double kOnsetRumble_hz = 60.0;
constexpr double kLeastRise = 2.0;       // 3 dB in power
constexpr double kFloorSpread = 1.4;     // the lowest 8 ms of a steady noise lie up to 1.5 dB under its mean
constexpr double kDeepestFall = 0.003;   // 25 dB: more says nothing more

double clamp01(double value) { return std::clamp(value, 0.0, 1.0); }

double mean_square(std::span<const float> values, std::size_t begin, std::size_t end) {
  end = std::min(end, values.size());
  if (end <= begin) return 0.0;
  double sum = 0.0;
  for (const float value : values.subspan(begin, end - begin)) sum += static_cast<double>(value) * static_cast<double>(value);
  return sum / static_cast<double>(end - begin);
}

/// One pole at 60 Hz, settled on the first sample.
std::vector<float> without_rumble(std::span<const float> samples, double rate_hz) {
  const double share = 1.0 - std::exp(-2.0 * std::numbers::pi * kOnsetRumble_hz / rate_hz);
  double slow = samples.empty() ? 0.0 : static_cast<double>(samples[0]);
  std::vector<float> out;
  out.reserve(samples.size());
  for (const float sample : samples) {
    slow += share * (static_cast<double>(sample) - slow);
    out.push_back(static_cast<float>(static_cast<double>(sample) - slow));
  }
  return out;
}

}  // namespace

double shot_likeness(const Course& course) {
  const double sudden = clamp01((course.rise_db - 4.0) / 10.0);
  const double short_edge = std::clamp((course.early_share - 0.15) / 0.20, 0.05, 1.0);
  const double falls = std::clamp((course.fall_db - 5.0) / 8.0, 0.05, 1.0);
  const double bright = std::clamp((course.brightness_hz - 400.0) / 800.0, 0.25, 1.0);
  const double alone = std::clamp((course.over_recent_db - 11.0) / 9.0, 0.05, 1.0);
  return sudden * short_edge * falls * bright * alone;
}

std::optional<Onset> look_at_onset(const SampleRing& ring, const EnergyHops& hops, std::int64_t hop,
                                   double sample_rate_hz) {
  const auto in_samples = [sample_rate_hz](double seconds) {
    return static_cast<std::int64_t>(std::llround(seconds * sample_rate_hz));
  };
  const auto hop_samples = static_cast<std::int64_t>(hops.hop_samples());
  std::int64_t loudest = hop;
  for (std::int64_t k = hop; k < std::min(hop + kPreEchoHops, hops.count()); ++k) {
    if (hops.at(k) > (k < hop + kEdgeHops ? 1.0 : kOverPreEcho) * hops.at(loudest)) loudest = k;
  }
  const std::int64_t from = std::max(ring.begin(), hop * hop_samples - in_samples(kBefore_s));
  const auto samples = ring.copy(from, hop * hop_samples + in_samples(kOnsetLook_s));
  const auto difference = lagged_difference(samples, difference_lag(sample_rate_hz));
  const auto index = [from](std::int64_t position) { return static_cast<std::size_t>(std::max<std::int64_t>(position - from, 0)); };
  const auto edge = signal::steepest_rise(difference, sample_rate_hz, index((hop - 2) * hop_samples),
                                          index((loudest + 2) * hop_samples), kRounding);
  const auto at = static_cast<std::size_t>(std::ceil(edge.position));
  const auto power = [&](std::span<const float> of, double begin_s, double end_s) {
    return mean_square(of, at + static_cast<std::size_t>(in_samples(begin_s)), at + static_cast<std::size_t>(in_samples(end_s)));
  };

  Onset onset;
  onset.position = static_cast<double>(from) + edge.position;
  onset.has_quiet_before = onset.position >= 0.05 * sample_rate_hz;
  const auto edge_hop = static_cast<std::int64_t>(onset.position) / hop_samples;
  const double past = hops.mean(edge_hop - 20, edge_hop - 1);
  const double floor = hops.lowest_mean(edge_hop - 60, edge_hop - 1, 8);
  const double edge_power = power(difference, 0.0, 0.005);
  if (edge_power <= kOnsetSilence || edge_power < kLeastRise * past) return std::nullopt;
  onset.edge_power = edge_power - floor;
  const auto steady = without_rumble(samples, sample_rate_hz);
  onset.body_power = power(steady, 0.0, 0.030);
  const std::size_t peak_from = at - std::min<std::size_t>(at, 2);
  const std::size_t peak_to = std::min(samples.size(), at + static_cast<std::size_t>(in_samples(0.020)));
  for (std::size_t n = peak_from; n < peak_to; ++n) onset.peak = std::max(onset.peak, static_cast<double>(std::abs(samples[n])));
  const double lag = static_cast<double>(difference_lag(sample_rate_hz));
  const double steepness = std::sqrt(edge_power / (power(steady, 0.0, 0.005) + kOnsetSilence));
  onset.brightness_hz = sample_rate_hz / (std::numbers::pi * lag) * std::asin(std::min(1.0, 0.5 * steepness));

  Course course;
  // A file that starts on the hit has no past to rise from.
  course.rise_db = edge_hop < 3 ? 30.0 : power_to_db(edge_power / (past + kOnsetSilence));
  const double early = 4.0 * (power(difference, 0.0, 0.004) - floor);
  const double whole = 20.0 * (power(difference, 0.0, 0.020) - floor);
  course.early_share = early / std::max(whole, early);
  const double begins = power(difference, 0.0, 0.008) - floor;
  const double later = power(difference, 0.040, 0.080) - floor;
  course.fall_db = begins > 0.0 ? -power_to_db(std::max(later / begins, kDeepestFall)) : 0.0;
  course.brightness_hz = onset.brightness_hz;
  // What the last quarter second held above the floor: a steady noise is held against the rise already.
  const double recent = std::max(hops.mean(edge_hop - 250, edge_hop - 5) - kFloorSpread * floor, 0.0);
  course.over_recent_db = power_to_db((edge_power + kOnsetSilence) / (recent + kOnsetSilence));
  onset.likeness = shot_likeness(course);
  return onset;
}

}  // namespace ringfall::shot
