// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"
#include "shot/shot_ring_down.h"
#include "shot/tail_tones.h"

namespace ringfall::shot {

/// Levels over time and frequency, dB as printed (re full scale or re 20 uPa), mean square in one bin of `resolution_hz`.
struct Spectrogram {
  std::size_t frames = 0;
  std::size_t bins = 0;
  std::vector<float> levels_db;  ///< levels_db[bin * frames + frame]
  double first_frame_s = 0.0;    ///< centre of the first frame after the loud edge
  double hop_s = 0.0;
  double bin_hz = 0.0;
};

/// What the pictures of one shot show; times in seconds after the loud edge.
struct Portrait {
  double sample_rate_hz = 0.0;
  double wave_begin_s = 0.0;
  std::vector<float> wave;      ///< full scale = 1
  Spectrogram low;              ///< to 1 kHz, 85 ms frames: hum
  Spectrogram wide;             ///< to 10 kHz or Nyquist, 21 ms frames: ping
  std::optional<signal::Decay> decay_a;
  std::optional<signal::Decay> decay_z;
  TailDensity tail;             ///< dB as printed
  double undisturbed_s = 0.0;
};

/// Takes a shot's portrait, from 0.1 s before the edge to 0.8 s after it. Same definitions as measure_shot.
Portrait portrait_of(const Clip& clip, const Scale& scale, const MeasureSettings& settings);

}  // namespace ringfall::shot
