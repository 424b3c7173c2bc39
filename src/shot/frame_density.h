// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::shot {

/// How a frame is faded: raised-cosine ramps over these shares of its length at either end (0.5, 0.5 = Hann).
struct Fades {
  double in = 0.5;
  double out = 0.5;
};

/// One-sided mean-square density [re full scale^2 / Hz] of frames of one size, zero-mean, zero-padded to a fast length:
/// 2 |X|^2 / (fs sum w^2). The window's cosines are taken once for all frames.
/// Tested: shot.FrameDensity.*
class FrameDensity {
 public:
  FrameDensity(std::size_t size, double sample_rate_hz, const Fades& fades);

  /// `frame` has the size given; the bins run from 0 Hz to Nyquist.
  std::vector<double> of(std::span<const float> frame);
  double bin_hz() const { return bin_hz_; }

 private:
  std::vector<double> window_;
  std::vector<double> windowed_;
  std::vector<std::complex<double>> bins_;
  double scale_;
  double bin_hz_;
};

/// Bin by bin median over frames (the upper one of an even number), corrected to the mean of an exponential distribution
/// (1 / ln 2): a click in one frame does not lift it. At least one frame; meant for few. Tested: shot.FrameDensity.*
std::vector<double> median_density(std::span<const std::vector<double>> frames);

}  // namespace ringfall::shot
