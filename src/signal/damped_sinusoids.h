// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "signal/zoom_band.h"

namespace ringfall::signal {

/// x(t) = amplitude e^{-decay_per_s t} cos(2 pi frequency_hz t + phase_rad), t = 0 at the first sample fitted.
/// The sd values are one standard deviation by the Cramer-Rao bound with the noise measured in the fitted band.
struct DampedSinusoid {
  double frequency_hz = 0;
  double decay_per_s = 0;  ///< sigma of the amplitude; > 0 in every reported component
  double amplitude = 0;    ///< peak, at t = 0, in the unit of x
  double phase_rad = 0;    ///< -pi .. pi
  double frequency_sd_hz = 0;
  double decay_sd_per_s = 0;
  double amplitude_sd = 0;

  /// Time for 60 dB: 3 ln(10) / sigma = 6.9078 / sigma, in s.
  double ring_time_s() const;
  /// One standard deviation of ring_time_s to first order, in s.
  double ring_time_sd_s() const;
  /// zeta = sigma / sqrt(sigma^2 + (2 pi f)^2), f being the damped frequency. 0 .. 1.
  double damping_ratio() const;
  /// Q = 1 / (2 zeta). The loss factor of a lightly damped mode is eta = 2 zeta = 1 / Q.
  double quality_factor() const;
  /// delta = sigma / f = 2 pi zeta / sqrt(1 - zeta^2), the natural logarithm of successive peaks' ratio.
  double log_decrement() const;
};

struct DampedSinusoidLimits {
  int max_count = 4;               ///< components in the band and its guards together, 1 .. 8
  double shortest_ring_s = 0.010;  ///< components that ring shorter or longer (60 dB) are fitted but not reported
  double longest_ring_s = 60.0;
};

/// What a band holds. `sinusoids` is ascending in frequency and may be empty: no answer.
struct DampedSinusoidFit {
  std::vector<DampedSinusoid> sinusoids;
  /// Share of the energy in low..high Hz that goes when `sinusoids` are taken away; 0 .. 1, 0 without any. For a caller that
  /// must refuse: tones reach what their signal-to-noise ratio allows, decaying noise stays far below.
  double explained = 0;
  /// rms of white noise, at the full rate and in the unit of x, that has the residual's density in the band.
  double noise_rms = 0;
};

/// The damped sinusoids between low_hz and high_hz in a tail, how many there are included.
/// Definition: the bins of the tail's DFT in the band (and guards of 1/8 of it) are a sum of
///   a (1 - z^N) / (1 - z e^{-j theta_k}), z = e^{(-sigma + j 2 pi f)/rate}, its mirror image, a polynomial of up to 5 terms (what
///   tones and steps outside leak into the band; as many terms as the Bayesian information criterion asks for), and
///   noise of equal power in each bin. Starting values: ESPRIT (esprit.h) on the zoomed band; then least squares
///   by Gauss-Newton with the amplitudes projected out; then components that noise explains are dropped one by
///   one and the rest fitted again; then the same for what stands out from the residual, until nothing does.
/// In   tail     the spectrum of a tail that starts after the excitation; a dc offset does no harm
///      low_hz, high_hz   0 <= low < high <= rate/2. Cheap when (high - low) times the tail's length is 30 .. 100.
/// Out  see DampedSinusoidFit; empty when the band has fewer than 16 bins (guards included), when nothing rises from the
///      noise, or when what does grows or rings outside the limits.
/// Accuracy: 1.2 times the Cramer-Rao bound or better from 20 dB (docs/measures/tone_fit.md). The sd values hold for
///   tones in noise; noise that itself decays gets too small ones: look at `explained`.
/// Cost: see docs/measures/tone_fit.md; grows with the cube of the number of bins.
/// Fails: InternalError for a band outside 0 .. rate/2 or max_count outside 1 .. 8.
/// Source: own combination of [Roy1989], [Badeau2006], [Golub1973]; bound [Yao1995], see docs/measures/tone_fit.md
/// Tests: damped_sinusoids_test.cpp against the closed-form bound and published signals.
DampedSinusoidFit fit_damped_sinusoids(const TailSpectrum& tail, double low_hz, double high_hz,
                                       const DampedSinusoidLimits& limits = {});

/// The same with the number of components and their starting values given (frequency_hz and decay_per_s are read): for a
/// tone known from other shots. Starting values should lie within about max(sigma/2 pi, 1/length) of the truth.
/// A component that noise explains is dropped; `limits.max_count` is not read.
DampedSinusoidFit refine_damped_sinusoids(const TailSpectrum& tail, double low_hz, double high_hz,
                                          std::span<const DampedSinusoid> initial,
                                          const DampedSinusoidLimits& limits = {});

}  // namespace ringfall::signal
