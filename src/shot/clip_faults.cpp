// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/clip_faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <optional>

#include "base/units.h"

namespace ringfall::shot {
namespace {

using Samples = std::vector<float>;

/// A run this long at one value, entered by a step this many quanta high, is a flat top. A parabola that stays
/// within one quantum over n >= 3 samples leaves it with a step of at most 1.8 quanta.
constexpr std::size_t kFlatRun = 3;
constexpr float kCornerSteps = 8.0F;
constexpr std::size_t kSameTops = 3;  // a decaying wave does not reach one and the same height three times
constexpr float kTopCode = 32766.5F / 32768.0F;  // reached once: a normalised file; twice: cut
constexpr float kNearTop = 0.97F;   // plateaus count only near the highest value of their sign
constexpr double kDropout_s = 0.001;
constexpr double kNeededBeforeEdge_s = 0.005;
constexpr double kDcNoted = 0.002;      // of full scale: 1.6 mV at 0.8 V, heard as a click when cut
constexpr double kSilenceShare = 0.5;   // this share of exact zeros before the shot is no room's floor
constexpr double kSilentBefore = 0.05;
constexpr double kSilenceAfter_s = 0.100;
constexpr double kSilentRun_s = 0.010;
constexpr double kDigitalFloor_db = -90.0;
constexpr double kStepsNeeded = 3.0;    // rms of the tail in quanta; rounding alone has 0.3
constexpr double kCliff_db = 20.0;      // a room or a bow does not fall this far from one 5 ms frame to the next

std::size_t samples_in(const Clip& clip, double seconds) {
  return static_cast<std::size_t>(std::llround(seconds * clip.sample_rate_hz));
}

std::size_t edge_of(const Clip& clip) {
  return static_cast<std::size_t>(clip.onset_sample - clip.first_sample);
}

/// The smallest step between different neighbours: one quantum of integer samples, tiny for float ones.
float quantum(const Samples& samples, std::size_t begin, std::size_t end) {
  float smallest = 1.0F;
  for (std::size_t n = begin + 1; n < end; ++n) {
    const float step = std::abs(samples[n] - samples[n - 1]);
    if (step > 0.0F) smallest = std::min(smallest, step);
  }
  return smallest;
}

/// Does the sound next to sample `at` stand well above its own rounding? A wave cut in the middle does, one that
/// died away to zero does not.
bool loud_beside(const Samples& samples, std::size_t begin, std::size_t end, float step) {
  double sum = 0.0;
  for (std::size_t n = begin; n < end; ++n) {
    sum += static_cast<double>(samples[n]) * static_cast<double>(samples[n]);
  }
  const double rms = std::sqrt(sum / static_cast<double>(std::max<std::size_t>(end - begin, 1)));
  return rms > std::max(8.0 * static_cast<double>(step), 1e-4);
}

/// Longest run of exact zeros, in samples, with the wave cut off on both sides.
std::size_t longest_hole(const Samples& samples, std::size_t begin, std::size_t end,
                         std::size_t beside) {
  const float step = quantum(samples, begin, end);
  std::size_t longest = 0;
  std::size_t run = 0;
  for (std::size_t n = begin; n < end; ++n) {
    if (samples[n] == 0.0F) {
      ++run;
      continue;
    }
    const std::size_t first = n - run;
    if (run > longest && first >= begin + beside && n + beside <= end &&
        loud_beside(samples, first - beside, first, step) &&
        loud_beside(samples, n, n + beside, step)) {
      longest = run;
    }
    run = 0;
  }
  return longest;
}

double frame_level_db(const Samples& samples, std::size_t begin, std::size_t length) {
  double sum = 0.0;
  for (std::size_t n = begin; n < begin + length; ++n) {
    sum += static_cast<double>(samples[n]) * static_cast<double>(samples[n]);
  }
  return power_to_db(sum / static_cast<double>(length) + 1e-16);
}

/// A tail that falls off a cliff to digital silence and stays there: time of the cliff after the edge.
std::optional<double> cliff_s(const Clip& clip) {
  const std::size_t frame = std::max<std::size_t>(samples_in(clip, 0.005), 8);
  const std::size_t start = edge_of(clip) + samples_in(clip, 0.010);
  std::vector<double> levels;
  for (std::size_t n = start; n + frame <= clip.samples.size(); n += frame) {
    levels.push_back(frame_level_db(clip.samples, n, frame));
  }
  constexpr std::size_t kStays = 6;  // 30 ms
  for (std::size_t k = 1; k + 1 + kStays < levels.size(); ++k) {
    const double before = levels[k - 1];
    const bool stays = std::all_of(levels.begin() + static_cast<std::ptrdiff_t>(k) + 1,
                                   levels.begin() + static_cast<std::ptrdiff_t>(k + 1 + kStays),
                                   [](double level) { return level < kDigitalFloor_db; });
    // The frame that holds the cliff itself may be half sound, so compare across it.
    if (stays && before - levels[k + 1] > kCliff_db && before > kDigitalFloor_db + kCliff_db) {
      return 0.010 + static_cast<double>(k) * 0.005;
    }
  }
  return std::nullopt;
}

/// Share of the samples before the shot that lie in runs of exact zeros of 10 ms and more. A quiet place recorded with 16 bits
/// has many zeros too, but one step up or down every few samples.
double silent_share_before(const Clip& clip) {
  const std::size_t end = edge_of(clip) - std::min(edge_of(clip), samples_in(clip, 0.050));
  if (end < samples_in(clip, 0.050)) return 0.0;
  const std::size_t least = samples_in(clip, kSilentRun_s);
  std::size_t silent = 0;
  std::size_t run = 0;
  for (std::size_t n = 0; n <= end; ++n) {
    if (n < end && clip.samples[n] == 0.0F) {
      ++run;
      continue;
    }
    if (run >= least) silent += run;
    run = 0;
  }
  return static_cast<double>(silent) / static_cast<double>(end);
}

/// Where the recording begins too close to the edge, it may have begun inside the shot: how loud it was is not known.
void add_cut_start(const Clip& clip, std::vector<Finding>& findings) {
  if (edge_of(clip) >= samples_in(clip, kNeededBeforeEdge_s)) return;
  findings.push_back(
      {"starts_inside_shot", Severity::void_,
       {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::tones, Quantity::hum, Quantity::ping,
        Quantity::buzz, Quantity::floor, Quantity::impact},
       "The recording begins with this sound, so its start may be missing, and with it the instant that every number counts "
       "from: nothing of it can be used. Start recording a second or more before the first shot."});
}

/// A place that sounded before the shot and is silent after it: start of the first 100 ms of exact zeros, after the edge.
std::optional<double> silence_after_s(const Clip& clip) {
  if (silent_share_before(clip) > kSilentBefore) return std::nullopt;
  const std::size_t least = samples_in(clip, kSilenceAfter_s);
  std::size_t run = 0;
  for (std::size_t n = edge_of(clip); n < clip.samples.size(); ++n) {
    run = clip.samples[n] == 0.0F ? run + 1 : 0;
    if (run == least) return static_cast<double>(n + 1 - least - edge_of(clip)) / clip.sample_rate_hz;
  }
  return std::nullopt;
}

void add_gate(const Clip& clip, std::vector<Finding>& findings) {
  auto cliff = cliff_s(clip);
  if (!cliff) cliff = silence_after_s(clip);
  if (cliff) {
    findings.push_back(
        {"noise_gate", Severity::void_, {Quantity::ring_down, Quantity::hum, Quantity::ping},
         fmt::format("The tail is cut off to digital silence {:.0f} ms after the loud edge: a noise gate or noise "
                     "suppression is at work, so ring-down, hum and ping can't be had. Switch it off, or record "
                     "with an app that stores the unprocessed microphone.",
                     *cliff * 1000.0)});
    return;
  }
  if (silent_share_before(clip) > kSilenceShare) {
    findings.push_back({"noise_gate", Severity::caution, {Quantity::hum, Quantity::ping},
                        "Before the shot there is digital silence instead of a room's floor: the file was edited or "
                        "a noise gate is at work. Weak tones may have been removed."});
    findings.push_back({"noise_gate", Severity::void_, {Quantity::floor},
                        "What is before the shot is digital silence, not the place's background: the floor can't be had."});
  }
}

/// A tail of a few steps is mostly rounding: its error follows the sound and rings along with it.
void add_coarse_steps(const Clip& clip, std::vector<Finding>& findings) {
  const std::size_t begin = std::min(clip.samples.size(), edge_of(clip) + samples_in(clip, 0.030));
  const std::size_t end = std::min(clip.samples.size(), edge_of(clip) + samples_in(clip, 0.230));
  if (end < begin + samples_in(clip, 0.050)) return;
  const auto step = static_cast<double>(quantum(clip.samples, begin, end));
  const double dc = dc_of(clip);
  double sum = 0.0;
  for (std::size_t n = begin; n < end; ++n) {
    const double value = static_cast<double>(clip.samples[n]) - dc;
    sum += value * value;
  }
  const double rms = std::sqrt(sum / static_cast<double>(end - begin));
  if (rms <= 0.0 || rms >= kStepsNeeded * step) return;
  findings.push_back(
      {"coarse_steps", Severity::void_, {Quantity::ring_down, Quantity::tones, Quantity::hum, Quantity::ping},
       fmt::format("The tail is only {:.1f} steps of the file's resolution strong: rounding drowns what rings in it. Record at "
                   "16 or 24 bits with more gain.",
                   rms / step)});
}

}  // namespace

bool has_flat_tops(const Samples& samples, std::size_t begin, std::size_t end) {
  if (end <= begin + kFlatRun) return false;
  const auto [low, high] = std::minmax_element(samples.begin() + static_cast<std::ptrdiff_t>(begin),
                                               samples.begin() + static_cast<std::ptrdiff_t>(end));
  const float lowest = *low;
  const float highest = *high;
  // Float files carry dither-like rounding: a plateau may wobble by a hundred-thousandth of its height.
  const float step = quantum(samples, begin, end);
  const float flat = std::max(0.5F * step, 1e-5F * std::max(highest, -lowest));
  const float corner = kCornerSteps * std::max(step, flat);
  std::size_t run = 1;
  std::size_t touched_top = 0;
  std::size_t touched_bottom = 0;
  for (std::size_t n = begin + 1; n < end; ++n) {
    if (std::abs(samples[n] - samples[n - 1]) <= flat) {
      ++run;
      if (n + 1 < end) continue;
    }
    const std::size_t first = n - run;
    const float value = samples[n - 1];
    const bool at_top = (highest > 0.0F && value >= kNearTop * highest) ||
                        (lowest < 0.0F && value <= kNearTop * lowest);
    if (at_top && first > begin) {
      const float entered = std::abs(samples[first] - samples[first - 1]);
      const float left = std::abs(samples[n] - value);
      const bool corners = std::max(entered, left) > corner && std::min(entered, left) > flat;
      const std::size_t needed = std::abs(value) >= kTopCode ? 2 : kFlatRun;
      if (corners && run >= needed) return true;
      // Short touches count when they end at the very same value again and again.
      if (corners && std::abs(value - highest) <= flat) ++touched_top;
      if (corners && std::abs(value - lowest) <= flat) ++touched_bottom;
    }
    run = 1;
  }
  const bool full_scale = std::max(highest, -lowest) >= kTopCode;
  // Both signs stopping at the same height is itself a sign of a ceiling.
  const bool symmetric = std::abs(highest + lowest) <= corner / kCornerSteps;
  const std::size_t touches =
      symmetric ? touched_top + touched_bottom : std::max(touched_top, touched_bottom);
  return touches >= (full_scale ? 2 : kSameTops);
}

double dc_of(const Clip& clip) {
  std::size_t end = edge_of(clip) - std::min(edge_of(clip), samples_in(clip, 0.050));
  if (end < samples_in(clip, 0.100)) end = clip.samples.size();
  const double sum = std::accumulate(clip.samples.begin(),
                                     clip.samples.begin() + static_cast<std::ptrdiff_t>(end), 0.0);
  return end == 0 ? 0.0 : sum / static_cast<double>(end);
}

std::vector<Finding> clip_faults(const Clip& clip) {
  std::vector<Finding> findings;
  add_cut_start(clip, findings);
  const std::size_t edge = edge_of(clip);
  const std::size_t loud_begin = edge - std::min(edge, samples_in(clip, 0.005));
  const std::size_t loud_end = std::min(clip.samples.size(), edge + samples_in(clip, 0.060));
  if (has_flat_tops(clip.samples, loud_begin, loud_end)) {
    // A decay is counted from its start: with the start too low, every time to -10 or -20 dB comes out too long.
    findings.push_back({"clipped", Severity::void_, {Quantity::levels, Quantity::loudness, Quantity::ring_down},
                        "The loudest part is cut flat: level, loudness, sharpness and ring-down can't be told. Lower the "
                        "gain or move the microphone back (never forward of the line) and shoot again. Hum and ping, from "
                        "30 ms on, are still usable."});
  }
  const std::size_t hole = longest_hole(
      clip.samples, edge - std::min(edge, samples_in(clip, 0.200)),
      std::min(clip.samples.size(), edge + samples_in(clip, 0.500)), samples_in(clip, kDropout_s));
  if (hole >= samples_in(clip, kDropout_s)) {
    findings.push_back(
        {"dropout", Severity::void_,
         {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::hum, Quantity::ping},
         fmt::format("Sound is missing for {:.1f} ms inside the shot: the recorder lost samples. Leave this shot out, "
                     "and close other programs or use a wired microphone.",
                     1000.0 * static_cast<double>(hole) / clip.sample_rate_hz)});
  }
  const double dc = dc_of(clip);
  if (std::abs(dc) > kDcNoted) {
    findings.push_back({"dc_offset", Severity::note, {},
                        fmt::format("The samples sit {:.2f} % of full scale off zero; the offset was taken off.",
                                    100.0 * dc)});
  }
  add_gate(clip, findings);
  add_coarse_steps(clip, findings);
  return findings;
}

}  // namespace ringfall::shot
