// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <span>

namespace ringfall::intake {

/// What a level meter shows. Levels in dB re full scale (a full-scale square wave is 0 dB, a sine -3 dB rms).
struct MeterReading {
  double rms_db = -120.0;        ///< of the last 50 ms; -120 at the least
  double peak_db = -120.0;       ///< highest |sample| of the last 50 ms
  double held_peak_db = -120.0;  ///< highest |sample| of the last 2 s
  double floor_db = -120.0;      ///< lowest 50 ms rms of the last 2 s: what is there between shots
  bool clipped = false;          ///< three samples in a row at full scale since the mark was last wiped
};

/// Watches a stream of samples, block by block.
class LevelMeter {
 public:
  explicit LevelMeter(double sample_rate_hz);
  /// Any block size. Non-finite samples count as 0.
  void push(std::span<const float> samples);
  const MeterReading& reading() const { return reading_; }
  void wipe_clip_mark() { reading_.clipped = false; }

 private:
  void end_window();

  std::int64_t window_;
  std::int64_t hold_windows_;
  std::int64_t filled_ = 0;
  std::int64_t windows_held_ = 0;
  std::int64_t floor_windows_ = 0;
  double energy_ = 0.0;
  double peak_ = 0.0;
  int at_full_scale_ = 0;
  MeterReading reading_;
};

}  // namespace ringfall::intake
