// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/shot_trace.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "base/units.h"

namespace ringfall::terminal {
namespace {

constexpr double kStep_s = 0.025;
constexpr int kFirst = -4;  // steps from the edge
constexpr int kLast = 23;
constexpr double kRange_db = 70.0;
constexpr int kBarWidth = 50;

/// Level of the stretch that begins so many steps after the edge; nullopt where the clip does not reach.
std::optional<double> level_db(const shot::Clip& clip, int step) {
  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample);
  const auto begin = std::llround(edge + step * kStep_s * clip.sample_rate_hz);
  const auto end = std::llround(edge + (step + 1) * kStep_s * clip.sample_rate_hz);
  if (begin < 0 || end > static_cast<std::int64_t>(clip.samples.size()) || begin >= end) return std::nullopt;
  double sum = 0.0;
  for (auto k = begin; k < end; ++k) {
    const double sample = static_cast<double>(clip.samples[static_cast<std::size_t>(k)]);
    sum += sample * sample;
  }
  return power_to_db(sum / static_cast<double>(end - begin));
}

bool inside(double time_s, int step) { return time_s >= step * kStep_s && time_s < (step + 1) * kStep_s; }

}  // namespace

std::string shot_trace(const shot::Clip& clip, const shot::Shot& shot) {
  std::vector<std::optional<double>> levels;
  double top_db = -kRange_db;
  for (int step = kFirst; step <= kLast; ++step) {
    levels.push_back(level_db(clip, step));
    if (levels.back()) top_db = std::max(top_db, *levels.back());
  }
  std::string out;
  for (int step = kFirst; step <= kLast; ++step) {
    const auto level = levels[static_cast<std::size_t>(step - kFirst)];
    if (!level) continue;
    const double height = std::clamp((*level - top_db + kRange_db) / kRange_db, 0.0, 1.0);
    std::string marks;
    const auto mark = [&](double time_s, const char* what) {
      if (inside(time_s, step)) marks += (marks.empty() ? "  " : ", ") + std::string(what);
    };
    mark(0.0, "loud edge");
    if (shot.tail_end_s) mark(*shot.tail_end_s - shot.onset_s, "end of the tail");
    if (shot.impact_lag_s) mark(*shot.impact_lag_s, "impact");
    const std::string number = std::isfinite(*level) ? fmt::format("{:6.1f}", *level) : "  -inf";
    out += fmt::format("  {:5.0f} ms {} dB |{}{}\n", step * kStep_s * 1000.0, number,
                       std::string(static_cast<std::size_t>(std::lround(height * kBarWidth)), '='), marks);
  }
  return out;
}

}  // namespace ringfall::terminal
