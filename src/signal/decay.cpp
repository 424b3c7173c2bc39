// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/decay.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

#include "base/check.h"
#include "base/units.h"
#include "signal/decay_model.h"

namespace ringfall::signal {
namespace {

constexpr double kCurveStep_s = 0.00025;
constexpr double kDecayFrame_s = 0.004;
constexpr double kShortestDecay_s = 0.030;
constexpr double kLevelWindow_s = 0.010;
/// The tail model is fitted from where the curve is 5 dB down, or this far above the noise if that is later: the end
/// of the decay decides where it meets the noise, not its beginning.
constexpr double kTailAboveNoise_db = 25.0;
constexpr double kEarly_db = -10.0;
constexpr double kEarlyRangeNeeded_db = 12.0;
constexpr double kLateTop_db = -5.0;
constexpr double kLateBottom_db = -25.0;
/// Down to here above the extrapolated rest the curve is called clean.
constexpr double kClean_db = 5.0;
/// An end that was cut (an impact) has not shown how the sound goes on: the rest is a guess, and must matter less.
constexpr double kCleanWhenCut_db = 8.0;
/// Noise before the shot is worth this much of the recording's own end.
constexpr double kKnownNoiseWorth_s = 0.2;
/// Bandwidth times decay time below which the band filter's own ringing (4.05 for the late part) shows: measured on
/// damped sines, the late time is 22 % off at 4, 3 % at 6 and under 1 % at 8; the early time 8 % at 8, 3 % at 16.
constexpr double kLateTimesBandwidth = 8.0;
constexpr double kEarlyTimesBandwidth = 16.0;
/// Two pieces of one straight decay differ by less than this factor, more where noise in a narrow band makes its
/// slope stray: ln factor = kBent + kBentByNoise / sqrt(bandwidth * decay time).
constexpr double kBent = 0.4;
constexpr double kShortestCut_s = 0.1; // less, and not down to the end of the range: the slow part has not shown itself
constexpr double kBentWhenCut = 0.25;  // what follows the cut is taken to go on as before: only if that was one slope
constexpr double kBentByNoise = 1.5;
/// A loud slow part hides a quick one from all but the very beginning of the curve.
constexpr double kStart_db = -2.0;

std::vector<double> block_means(std::span<const double> values, std::size_t length) {
  std::vector<double> means(values.size() / length);
  for (std::size_t n = 0; n < means.size(); ++n) {
    const auto block = values.subspan(n * length, length);
    means[n] = std::accumulate(block.begin(), block.end(), 0.0) / static_cast<double>(length);
  }
  return means;
}

std::size_t block_length(double seconds, double rate_hz) {
  return static_cast<std::size_t>(std::max(1.0, std::round(seconds * rate_hz)));
}

/// Time until the mean over the 10 ms that follow stays 20 dB below its maximum, for another 10 ms at least.
std::optional<double> time_to_20_db(std::span<const double> steps, double step_s) {
  const std::size_t window = std::min(block_length(kLevelWindow_s, 1.0 / step_s), steps.size());
  std::vector<double> sums;
  double sum = 0.0;
  for (std::size_t n = 0; n < steps.size(); ++n) {
    sum += steps[n];
    if (n + 1 < window) continue;
    sums.push_back(sum);
    sum = std::max(0.0, sum - steps[n + 1 - window]);
  }
  const double limit = *std::max_element(sums.begin(), sums.end()) * 0.01;
  std::size_t after = sums.size();
  while (after > 0 && sums[after - 1] < limit) --after;
  if (after + window > sums.size()) return std::nullopt;
  return static_cast<double>(after) * step_s;
}

/// The decay's end: where it meets the noise and what is known of the rest.
struct Ending {
  double noise = 0.0;
  double crossing_s = 0.0;
  double rest = 0.0;  ///< energy behind the crossing, mean square times seconds
  bool noise_reached = false;
};

/// First time the backward integral of `frames` less `noise` is below level_db.
std::size_t frame_below(std::span<const double> frames, double noise, double level_db) {
  double whole = 0.0;
  for (const double frame : frames) whole += std::max(0.0, frame - noise);
  double rest = whole;
  std::size_t n = 0;
  while (n < frames.size() && rest > whole * db_to_power(level_db)) {
    rest -= std::max(0.0, frames[n] - noise);
    ++n;
  }
  return n;
}

/// Last time four frames in a row are on average above `level`.
std::size_t frame_above(std::span<const double> frames, double level) {
  for (std::size_t n = frames.size(); n >= 4; --n) {
    if (frames[n - 1] + frames[n - 2] + frames[n - 3] + frames[n - 4] > 4.0 * level) return n - 4;
  }
  return 0;
}

std::optional<Ending> find_ending(std::span<const double> frames, double frame_s,
                                  std::optional<double> noise_mean_square) {
  const std::size_t count = frames.size();
  const double length_s = frame_s * static_cast<double>(count);
  const std::size_t tenth = std::max<std::size_t>(count / 10, 2);
  const auto last = frames.last(tenth);
  const double end_level = std::accumulate(last.begin(), last.end(), 0.0) / static_cast<double>(tenth);
  std::optional<KnownNoise> known;
  if (noise_mean_square && *noise_mean_square > 0.0) known = {*noise_mean_square, kKnownNoiseWorth_s / frame_s};
  double noise = known ? std::min(known->mean_square, end_level) : end_level;
  const double loudest = *std::max_element(frames.begin(), frames.end());
  noise = std::max(noise, loudest * 1e-12);

  std::optional<Ending> ending;
  std::size_t begin_before = count;
  for (int round = 0; round < 3; ++round) {
    std::size_t begin = std::max(frame_below(frames, noise, kLateTop_db),
                                 frame_above(frames, std::max(noise, end_level) * db_to_power(kTailAboveNoise_db)));
    begin = std::min(begin, count - std::min<std::size_t>(count, 6));
    if (begin == begin_before) break;  // the same tail has the same fit
    begin_before = begin;
    const auto tail = frames.subspan(begin);
    if (tail.size() < 5) return ending;
    const DecayModel guess{std::max(tail[0], noise * 2.0), 13.8155 / std::max(length_s, 0.05), noise};
    const auto model = fit_decay_model(tail, frame_s, guess, known);
    if (!model) return ending;
    const double begin_s = static_cast<double>(begin) * frame_s;
    double crossing_s = begin_s + std::log(model->start / model->noise) / model->fall_per_s;
    const bool reached = crossing_s < length_s;
    crossing_s = std::clamp(crossing_s, 0.0, length_s);
    Ending found;
    found.noise = model->noise;
    found.crossing_s = crossing_s;
    found.noise_reached = reached;
    found.rest = model->start * std::exp(-model->fall_per_s * (crossing_s - begin_s)) / model->fall_per_s;
    ending = found;
    noise = model->noise;
  }
  return ending;
}

/// Do the first 2 dB, the first 5 dB and the two halves of the late range fall at one rate?
bool is_bent(std::span<const double> curve_db, double rate_hz, const DecayLine& late, double bottom_db,
             std::optional<double> bandwidth_hz, double bent) {
  const double middle_db = 0.5 * (kLateTop_db + bottom_db);
  double allowed = bent;
  if (bandwidth_hz) allowed += kBentByNoise / std::sqrt(*bandwidth_hz * late.decay_time_s());
  const auto lower = fit_decay(curve_db, rate_hz, middle_db, bottom_db);
  if (!lower) return true;
  const auto differs = [&](double top_db, double end_db, double factor) {
    const auto piece = fit_decay(curve_db, rate_hz, top_db, end_db);
    return piece && std::abs(std::log(lower->decay_time_s() / piece->decay_time_s())) > factor;
  };
  return differs(0.0, kStart_db, 2.0 * allowed) || differs(0.0, kLateTop_db, allowed) ||
         differs(kLateTop_db, middle_db, allowed);
}

}  // namespace

std::optional<Decay> measure_decay(std::span<const double> mean_square, double rate_hz,
                                   std::optional<double> noise_mean_square, const DecaySettings& settings) {
  check(rate_hz >= 500.0, "a decay is read at 500 Hz or more");
  if (static_cast<double>(mean_square.size()) < kShortestDecay_s * rate_hz) return std::nullopt;
  const std::size_t step = block_length(kCurveStep_s, rate_hz);
  const std::vector<double> steps = block_means(mean_square, step);
  const double curve_rate_hz = rate_hz / static_cast<double>(step);
  const std::size_t per_frame = block_length(kDecayFrame_s, curve_rate_hz);
  const std::vector<double> frames = block_means(steps, per_frame);
  const double frame_s = static_cast<double>(per_frame) / curve_rate_hz;
  if (frames.size() < 6 || !(*std::max_element(frames.begin(), frames.end()) > 0.0)) return std::nullopt;

  Decay decay;
  decay.step_s = 1.0 / curve_rate_hz;
  decay.to_20_db_s = time_to_20_db(steps, decay.step_s);
  const auto ending = find_ending(frames, frame_s, noise_mean_square);
  if (!ending) return decay;
  decay.crossing_s = ending->crossing_s;
  if (ending->noise_reached) decay.noise_mean_square = ending->noise;

  const auto kept = std::min(static_cast<std::size_t>(std::round(ending->crossing_s * curve_rate_hz)), steps.size());
  std::vector<double> clean(steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(kept));
  for (double& value : clean) value -= ending->noise;
  decay.curve_db = backward_integration_db(clean, curve_rate_hz, ending->rest);
  if (decay.curve_db.empty()) return decay;
  const double whole = std::accumulate(clean.begin(), clean.end(), 0.0) / curve_rate_hz + ending->rest;
  decay.clean_range_db = std::max(0.0, power_to_db(whole / ending->rest) - (ending->noise_reached ? kClean_db : kCleanWhenCut_db));

  const auto long_enough = [&](const DecayLine& line, double times_bandwidth) {
    return !settings.bandwidth_hz || line.decay_time_s() * *settings.bandwidth_hz >= times_bandwidth;
  };
  if (decay.clean_range_db >= kEarlyRangeNeeded_db) {
    decay.early_line = fit_decay(decay.curve_db, curve_rate_hz, 0.0, kEarly_db);
    if (decay.early_line && long_enough(*decay.early_line, kEarlyTimesBandwidth)) {
      decay.early_s = decay.early_line->decay_time_s();
    }
  }
  if (decay.clean_range_db < settings.range_needed_db) return decay;
  const double bottom_db = std::max(kLateBottom_db, -decay.clean_range_db);
  const auto late = fit_decay(decay.curve_db, curve_rate_hz, kLateTop_db, bottom_db);
  if (!late || !long_enough(*late, kLateTimesBandwidth)) return decay;
  decay.bent = is_bent(decay.curve_db, curve_rate_hz, *late, bottom_db, settings.bandwidth_hz, kBent);
  if (settings.straight_only && decay.bent) return decay;
  if (!ending->noise_reached) {
    const bool brief = ending->crossing_s < kShortestCut_s;
    const bool partial = bottom_db > kLateBottom_db;
    if (brief && partial) return decay;
    if ((brief || partial) && is_bent(decay.curve_db, curve_rate_hz, *late, bottom_db, settings.bandwidth_hz, kBentWhenCut)) return decay;
  }
  decay.late_line = *late;
  decay.late_s = late->decay_time_s();
  decay.range_db = -bottom_db;
  return decay;
}

}  // namespace ringfall::signal
