// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <random>
#include <vector>

#include "base/units.h"
#include "signal/fft.h"

/// Sounds with known content for the tests of loudness, in Pa. The same on every machine but for rounding.
namespace ringfall::signal::test_sounds {

inline constexpr double kRate_hz = 48000.0;

inline double rms_pa(double level_db) { return kReferencePressure_pa * db_to_amplitude(level_db); }

/// A sine of that level, silent before begin_s.
inline std::vector<double> tone(double frequency_hz, double level_db, double duration_s, double begin_s = 0.0,
                                double rate_hz = kRate_hz) {
  std::vector<double> x(static_cast<std::size_t>(duration_s * rate_hz));
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    if (t < begin_s) continue;
    x[n] = std::numbers::sqrt2 * rms_pa(level_db) * std::sin(2.0 * std::numbers::pi * frequency_hz * t);
  }
  return x;
}

struct Pulse {
  double begin_s, end_s, level_db;
};

/// Test signals 10 to 13 of ISO 532-1:2017 Annex B.4, made anew: a 1 kHz carrier with Gaussian edges that are 3.01 dB
/// down at begin and end, 1 ms outside the plateau.
inline std::vector<double> pulses(const std::vector<Pulse>& list, double duration_s = 1.0, double rate_hz = kRate_hz) {
  std::vector<double> x(static_cast<std::size_t>(duration_s * rate_hz));
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    double envelope = 0.0;
    for (const Pulse& p : list) {
      const double outside_ms = 1000.0 * std::fmax(0.0, std::fmax(p.begin_s + 0.001 - t, t - p.end_s + 0.001));
      envelope += std::numbers::sqrt2 * rms_pa(p.level_db - 3.0103 * outside_ms * outside_ms);
    }
    x[n] = envelope * std::cos(2.0 * std::numbers::pi * 1000.0 * t);
  }
  return x;
}

/// Noise between two frequencies: 4 s of equally strong sines of random phase, 0.25 Hz apart.
inline std::vector<double> band_noise(double low_hz, double high_hz, double level_db) {
  constexpr std::size_t kSize = 4 * 48000;
  std::vector<std::complex<double>> bins(kSize / 2 + 1);
  std::mt19937 random(7);
  double power = 0.0;
  for (std::size_t k = 1; k < kSize / 2; ++k) {
    const double phase = 2.0 * std::numbers::pi * static_cast<double>(random()) / 4294967296.0;
    const double frequency_hz = 0.25 * static_cast<double>(k);
    if (frequency_hz < low_hz || frequency_hz > high_hz) continue;
    bins[k] = std::polar(1.0, phase);
    power += 2.0 / kSize / kSize;
  }
  std::vector<double> x(kSize);
  ifft_real(bins, x);
  const double scale = rms_pa(level_db) / std::sqrt(power);
  for (double& v : x) v *= scale;
  return x;
}

/// An invented shot: a burst of noise at edge_s that dies within 20 ms, three ringing tones, a quiet floor.
inline std::vector<double> shot(double gain = 1.0, double duration_s = 0.36, double edge_s = 0.030) {
  std::vector<double> x(static_cast<std::size_t>(duration_s * kRate_hz));
  std::mt19937 random(1);
  const auto noise = [&] { return (static_cast<double>(random()) - 2147483648.0) / 1.24e9; };
  const double turn = 2.0 * std::numbers::pi;
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double t = static_cast<double>(n) / kRate_hz - edge_s;
    x[n] = 2e-4 * noise();
    const double burst = noise();
    if (t >= 0.0) {
      x[n] += 0.8 * burst * std::exp(-t / 0.006) + 0.3 * std::exp(-t / 0.15) * std::sin(turn * 110.0 * t) +
              0.15 * std::exp(-t / 0.08) * std::sin(turn * 1430.0 * t) +
              0.05 * std::exp(-t / 0.05) * std::sin(turn * 5210.0 * t);
    }
    x[n] *= gain;
  }
  return x;
}

}  // namespace ringfall::signal::test_sounds
