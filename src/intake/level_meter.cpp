// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/level_meter.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace ringfall::intake {
namespace {

constexpr double kWindow_s = 0.050;
constexpr double kHold_s = 2.0;
constexpr double kLowest_db = -120.0;
constexpr double kFullScale = 0.9995;  // 16-bit converters stop short of 1
constexpr int kClippedRun = 3;

}  // namespace

LevelMeter::LevelMeter(double sample_rate_hz)
    : window_(std::llround(kWindow_s * sample_rate_hz)), hold_windows_(std::llround(kHold_s / kWindow_s)) {}

void LevelMeter::push(std::span<const float> samples) {
  for (const float sample : samples) {
    const double value = std::isfinite(sample) ? static_cast<double>(sample) : 0.0;
    energy_ += value * value;
    peak_ = std::max(peak_, std::abs(value));
    at_full_scale_ = std::abs(value) >= kFullScale ? at_full_scale_ + 1 : 0;
    if (at_full_scale_ >= kClippedRun) reading_.clipped = true;
    if (++filled_ == window_) end_window();
  }
}

void LevelMeter::end_window() {
  reading_.rms_db = std::max(kLowest_db, power_to_db(energy_ / static_cast<double>(window_)));
  reading_.peak_db = std::max(kLowest_db, amplitude_to_db(peak_));
  if (reading_.peak_db >= reading_.held_peak_db || ++windows_held_ >= hold_windows_) {
    reading_.held_peak_db = reading_.peak_db;
    windows_held_ = 0;
  }
  if (floor_windows_ == 0 || reading_.rms_db <= reading_.floor_db || floor_windows_ >= hold_windows_) {
    reading_.floor_db = reading_.rms_db;
    floor_windows_ = 0;
  }
  ++floor_windows_;
  filled_ = 0;
  energy_ = 0.0;
  peak_ = 0.0;
}

}  // namespace ringfall::intake
