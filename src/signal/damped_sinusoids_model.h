// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Dense>
#include <complex>
#include <vector>

#include "signal/zoom_band.h"

namespace ringfall::signal {

/// What a band's bins look like when x is a sum of damped sinusoids: the model behind damped_sinusoids.h, for its .cpp only.
/// Each complex bin is two real rows, all real parts first.

/// One component, per sample: pole z = e^{-alpha + j omega}; x[n] = 2 Re(a z^n).
struct Pole {
  double omega = 0;
  double alpha = 0;
};

/// Poles with the coefficients that fit best, and what is left.
struct LinearFit {
  std::vector<Pole> poles;
  Eigen::MatrixXd columns;       ///< 2K x 2(p + terms): Re and Im of each amplitude, then the background's
  Eigen::MatrixXd slopes;        ///< 2K x 2p: by omega and alpha of each pole
  Eigen::VectorXd coefficients;
  Eigen::VectorXd residual;
  double sum_of_squares = 0;
};

class BandModel {
 public:
  BandModel(const TailSpectrum& tail, BinRange range);

  Eigen::Index rows() const { return target_.size(); }
  const Eigen::VectorXd& target() const { return target_; }

  /// Least squares in the amplitudes and the background's `terms` complex coefficients.
  LinearFit solve(const std::vector<Pole>& poles, int terms) const;

  /// Gauss-Newton in the poles from there on, the linear coefficients projected out (Kaufman's form of
  /// variable projection), damped after Levenberg and Marquardt. Ends when a step lowers the sum of squares by less
  /// than `least_gain` noise variances: that moves no parameter by more than sqrt(least_gain) standard deviations.
  LinearFit refine(LinearFit fit, int terms, double least_gain) const;

  /// How many background terms (0 .. most) the Bayesian information criterion asks for, to first order around `fit`.
  int choose_terms(const LinearFit& fit, int most) const;

 private:
  void fill_pole(const Pole& pole, Eigen::Index m, LinearFit& fit) const;
  void fill_background(int terms, Eigen::Ref<Eigen::MatrixXd> columns) const;

  double length_;
  std::vector<std::complex<double>> turns_;  ///< e^{-j theta_k} of each bin
  Eigen::VectorXd target_;
};

}  // namespace ringfall::signal
