// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/onset_candidate.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

#include "base/units.h"
#include "shot/loud_edge.h"

namespace ringfall::shot {
namespace {

constexpr double kBefore_s = 0.012;  // stretch looked at before the hint
constexpr double kSilence = 1e-12;   // below 16-bit rounding: keeps ratios finite

double clamp01(double value) { return std::clamp(value, 0.0, 1.0); }

struct Powers {
  double difference = 0.0;
  double sample = 0.0;
  double peak = 0.0;
};

Powers powers(std::span<const float> samples, std::size_t begin, std::size_t end) {
  Powers sum;
  end = std::min(end, samples.size());
  begin = std::max<std::size_t>(std::min(begin, end), 1);
  if (end <= begin) return sum;
  for (std::size_t n = begin; n < end; ++n) {
    const auto value = static_cast<double>(samples[n]);
    const double step = value - static_cast<double>(samples[n - 1]);
    sum.difference += step * step;
    sum.sample += value * value;
    sum.peak = std::max(sum.peak, std::abs(value));
  }
  sum.difference /= static_cast<double>(end - begin);
  sum.sample /= static_cast<double>(end - begin);
  return sum;
}

}  // namespace

double shot_likeness(const Course& course) {
  const double sudden = clamp01((course.rise_db - 8.0) / 12.0);
  const double short_edge = clamp01((course.early_share - 0.20) / 0.25);
  const double falls = clamp01((course.fall_db - 5.0) / 8.0);
  return sudden * short_edge * falls;
}

std::optional<Onset> look_at_onset(const SampleRing& ring, const EnergyHops& hops, std::int64_t hop,
                                   double sample_rate_hz) {
  const auto in_samples = [sample_rate_hz](double seconds) {
    return static_cast<std::int64_t>(std::llround(seconds * sample_rate_hz));
  };
  const auto hop_samples = static_cast<std::int64_t>(hops.hop_samples());
  std::int64_t loudest = hop;
  for (std::int64_t k = hop; k < std::min(hop + 8, hops.count()); ++k) {
    if (hops.at(k) > hops.at(loudest)) loudest = k;
  }
  const std::int64_t from = std::max(ring.begin(), hop * hop_samples - in_samples(kBefore_s));
  const auto samples = ring.copy(from, hop * hop_samples + in_samples(kOnsetLook_s));
  const auto index = [from](std::int64_t position) { return static_cast<std::size_t>(std::max<std::int64_t>(position - from, 0)); };
  const LoudEdge edge = loud_edge(samples, sample_rate_hz, index((loudest - 5) * hop_samples),
                                  index((loudest + 2) * hop_samples));
  const auto at = static_cast<std::size_t>(std::ceil(edge.position));
  const auto after = [&](double seconds) { return at + static_cast<std::size_t>(in_samples(seconds)); };

  Onset onset;
  onset.position = static_cast<double>(from) + edge.position;
  const Powers first = powers(samples, at, after(0.005));
  onset.edge_power = first.difference;
  const Powers body = powers(samples, at, after(0.030));
  onset.body_power = body.sample;
  onset.peak = powers(samples, at - std::min<std::size_t>(at, 2), after(0.020)).peak;
  onset.brightness_hz = sample_rate_hz / (2.0 * std::numbers::pi) *
                        2.0 * std::asin(std::min(1.0, 0.5 * std::sqrt(first.difference / (first.sample + kSilence))));
  // The hops before the hint: 20 ms up to 2 ms before the edge.
  const auto edge_hop = static_cast<std::int64_t>(onset.position) / hop_samples;
  const double past = hops.mean(edge_hop - 20, edge_hop - 1);
  onset.rise_db = power_to_db((onset.edge_power + kSilence) / (past + kSilence));
  onset.has_quiet_before = onset.position >= 0.05 * sample_rate_hz;
  if (onset.edge_power <= kSilence) return std::nullopt;

  Course course;
  course.rise_db = std::max(onset.rise_db, onset.has_quiet_before ? -100.0 : edge.rise_db);
  if (!onset.has_quiet_before && edge_hop < 3) course.rise_db = 30.0;  // the file starts on the hit
  const double early = powers(samples, at, after(0.004)).difference * 4.0;
  const double whole = powers(samples, at, after(0.020)).difference * 20.0;
  course.early_share = early / (whole + kSilence);
  const double begins = powers(samples, at, after(0.008)).difference;
  const double later = powers(samples, after(0.040), after(0.080)).difference;
  course.fall_db = power_to_db((begins + kSilence) / (later + kSilence));
  onset.likeness = shot_likeness(course);
  return onset;
}

}  // namespace ringfall::shot
