// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include "shot/synthetic_shot.h"

namespace ringfall::compare {

/// A dry shot with these tones (level at the edge re 20 uPa, 60 dB time) over white noise, at a full scale of 120 dB.
inline shot::Clip made_up_clip(std::uint64_t number, std::vector<shot::SyntheticTone> tones, double noise_db = 30.0,
                               double rate_hz = 48000.0) {
  constexpr double kFullScale_db_spl = 120.0;
  std::vector<double> pressure_pa(static_cast<std::size_t>(2.0 * rate_hz));
  shot::add_white_noise(pressure_pa, noise_db, 100 + number);
  shot::SyntheticShot sound;
  sound.tones = std::move(tones);
  shot::add_synthetic_shot(pressure_pa, rate_hz, 0.8, sound, number);
  shot::Clip clip;
  clip.samples = shot::to_full_scale(pressure_pa, kFullScale_db_spl);
  clip.sample_rate_hz = rate_hz;
  clip.onset_sample = std::llround(0.8 * rate_hz);
  clip.impact_sample = clip.onset_sample + std::llround(sound.impact_lag_s * rate_hz);
  return clip;
}

}  // namespace ringfall::compare
