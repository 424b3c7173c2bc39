// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "audio/sound_writer.h"
#include "logbook/logbook.h"
#include "shot/synthetic_shot.h"

namespace ringfall {

inline constexpr double kSessionRate_hz = 48000.0;
inline constexpr double kSessionFullScale_db = 118.0;
inline constexpr double kSessionImpact_s = 0.344;

/// A made-up session with known truth: synthetic shots, `spacing_s` apart, the first edge at 2 s, in 24-bit samples.
struct MadeSession {
  std::vector<float> samples;
  std::vector<double> edges_s;
};

inline MadeSession made_session(int shots, double spacing_s = 5.0, std::uint64_t seed = 40,
                                double impact_s = kSessionImpact_s) {
  MadeSession session;
  std::vector<double> wave(static_cast<std::size_t>((2.0 + spacing_s * shots) * kSessionRate_hz), 0.0);
  shot::add_white_noise(wave, 35.0, seed);
  for (int k = 0; k < shots; ++k) {
    shot::SyntheticShot shot;
    shot.tones = {{95.0, 80.0, 0.30}, {1450.0, 74.0, 0.16}};
    shot.impact_lag_s = impact_s;
    session.edges_s.push_back(2.0 + spacing_s * k + 0.0123 * (k % 7));
    shot::add_synthetic_shot(wave, kSessionRate_hz, session.edges_s.back(), shot, seed + 1 + static_cast<std::uint64_t>(k));
  }
  session.samples = shot::to_full_scale(wave, kSessionFullScale_db);
  for (float& sample : session.samples) sample = std::round(sample * 8388608.0F) / 8388608.0F;
  return session;
}

/// A logbook with the set-ups "bare" and "damped"; without a distance the finder has to wait for late impacts.
inline void made_logbook(const std::string& path, std::optional<double> distance_m = std::nullopt) {
  logbook::Conditions conditions;
  conditions.bow = "made-up bow";
  conditions.distance_m = distance_m;
  conditions.full_scale_db_spl = kSessionFullScale_db;
  auto book = logbook::Logbook::start(path, conditions);
  for (const char* name : {"bare", "damped"}) {
    logbook::SetUp setup;
    setup.name = name;
    book.add_setup(setup);
  }
}

}  // namespace ringfall
