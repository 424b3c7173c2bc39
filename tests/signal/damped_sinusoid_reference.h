// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Dense>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <random>
#include <vector>

#include "signal/damped_sinusoids.h"

/// What the estimator is judged against: signals made sample by sample, and the Cramer-Rao bound twice: in closed form for
/// one component, and by inverting the Fisher matrix summed over all samples for any number.
namespace ringfall::signal::reference {

inline DampedSinusoid tone(double frequency_hz, double decay_per_s, double amplitude = 1, double phase_rad = 0.3) {
  DampedSinusoid made;
  made.frequency_hz = frequency_hz;
  made.decay_per_s = decay_per_s;
  made.amplitude = amplitude;
  made.phase_rad = phase_rad;
  return made;
}

inline std::vector<double> samples(const std::vector<DampedSinusoid>& tones, double rate_hz, std::size_t count) {
  std::vector<double> x(count, 0.0);
  for (const auto& one : tones)
    for (std::size_t n = 0; n < count; ++n) {
      const double t = static_cast<double>(n) / rate_hz;
      x[n] += one.amplitude * std::exp(-one.decay_per_s * t) *
              std::cos(2 * std::numbers::pi * one.frequency_hz * t + one.phase_rad);
    }
  return x;
}

inline void add_noise(std::vector<double>& x, double sd, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  for (double& value : x) value += sd * normal(random);
}

/// SNR = A^2 / (2 s^2) at the start, in dB -> s.
inline double noise_sd(double amplitude, double snr_db) { return amplitude / std::sqrt(2 * std::pow(10.0, snr_db / 10)); }

struct Bound {
  double frequency_hz, decay_per_s;  ///< lowest standard deviations
};

/// Yao & Pandit, IEEE Trans. Signal Processing 43 (1995) 878, in the form var(omega) = var(alpha) =
/// (2 s^2/A^2) S0/(S0 S2 - S1^2), S_k = sum n^k r^n, r = e^{-2 alpha}, summed in closed form.
inline Bound closed_form_bound(const DampedSinusoid& one, double sd, double rate_hz, std::size_t count) {
  const double alpha = one.decay_per_s / rate_hz, n = static_cast<double>(count);
  const double r = std::exp(-2 * alpha), power = std::pow(r, n);
  const double s0 = (1 - power) / (1 - r);
  const double determinant =
      r / std::pow(1 - r, 4) * (1 - power * (n * n * (1 - r) * (1 - r) / r + 2) + power * power);
  const double lowest = std::sqrt(2 * sd * sd / (one.amplitude * one.amplitude) * s0 / determinant);
  return {lowest * rate_hz / (2 * std::numbers::pi), lowest * rate_hz};
}

/// The bound for each tone when all are unknown, noise of standard deviation sd.
inline std::vector<Bound> fisher_bound(const std::vector<DampedSinusoid>& tones, double sd, double rate_hz,
                                       std::size_t count) {
  const auto size = static_cast<Eigen::Index>(4 * tones.size());
  Eigen::MatrixXd slopes(static_cast<Eigen::Index>(count), size);
  for (std::size_t m = 0; m < tones.size(); ++m)
    for (std::size_t n = 0; n < count; ++n) {
      const auto row = static_cast<Eigen::Index>(n), at = static_cast<Eigen::Index>(4 * m);
      const double t = static_cast<double>(n) / rate_hz, omega = 2 * std::numbers::pi * tones[m].frequency_hz;
      const double envelope = std::exp(-tones[m].decay_per_s * t);
      const double c = envelope * std::cos(omega * t + tones[m].phase_rad);
      const double s = envelope * std::sin(omega * t + tones[m].phase_rad);
      slopes(row, at) = c;
      slopes(row, at + 1) = -tones[m].amplitude * s;
      slopes(row, at + 2) = -tones[m].amplitude * s * 2 * std::numbers::pi * t;
      slopes(row, at + 3) = -tones[m].amplitude * c * t;
    }
  // Columns of unit length keep the inverse accurate.
  const Eigen::VectorXd lengths = slopes.colwise().norm();
  slopes *= lengths.cwiseInverse().asDiagonal();
  const Eigen::MatrixXd inverse = (slopes.transpose() * slopes).inverse() * sd * sd;
  std::vector<Bound> bounds;
  for (Eigen::Index at = 0; at < size; at += 4)
    bounds.push_back({std::sqrt(inverse(at + 2, at + 2)) / lengths[at + 2],
                      std::sqrt(inverse(at + 3, at + 3)) / lengths[at + 3]});
  return bounds;
}

}  // namespace ringfall::signal::reference
