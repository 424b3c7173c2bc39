// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::signal {

/// The shift-invariant subspace of a short complex signal y[m] = sum a z^m + noise, from which its poles z are read for any
/// assumed number of them (ESPRIT, least-squares form).
/// Definition: eigenvectors U_p of the p largest eigenvalues of H H^*, H the rows x (M - rows + 1) Hankel matrix of y;
///   the poles are the eigenvalues of pinv(U_p without its last row) (U_p without its first row).
/// Accuracy: 5 .. 20 % above the Cramer-Rao bound from 10 .. 15 dB; noise-free poles to 1e-8 when resolved.
/// Not for final numbers: fit_damped_sinusoids refines.
/// Source: [Roy1989]; window length M/3 .. M/2 [Sarkar1995].  Tests: esprit_test.cpp.
class EspritSubspace {
 public:
  /// y: M samples. rows: 2 .. M - 1, M/3 .. M/2 is best; the cost grows with its cube.
  EspritSubspace(std::span<const std::complex<double>> y, std::size_t rows);

  /// Eigenvalues that stand out from the noise, at most max_count: those above (1 + sqrt(rows/columns))^4 times the median of
  /// the eigenvalues that max_count components leave to the noise, and above 1e-12 of the largest. The square of that
  /// bracket is where the largest eigenvalue of independent noise ends [Marchenko1967]; a Hankel matrix spreads
  /// further, and the fourth power is what one in twenty white noises of 60 .. 200 bins passes (measured).
  std::size_t count_above_noise(std::size_t max_count) const;

  /// The number of poles, at most max_count, whose subspace is shift invariant (ESTER): the largest p with
  /// 1 / ||U_p without first row - (U_p without last row) shift_p||^2 (Frobenius) at least 1/10 of the best one's. Keeps what
  /// rises from the noise without being a sum of poles (a gate's ringing under a strong tone) from being counted.
  /// 0 for max_count 0.  Source: [Badeau2006], threshold as seen in open implementations.
  std::size_t count_shift_invariant(std::size_t max_count) const;

  /// The poles z per sample, count of them in no order. count 0 .. rows - 1.
  std::vector<std::complex<double>> poles(std::size_t count) const;

 private:
  std::size_t rows_;
  std::size_t columns_ = 0;
  std::vector<double> eigenvalues_;                  ///< descending
  std::vector<std::complex<double>> eigenvectors_;   ///< by columns, in the same order
};

}  // namespace ringfall::signal
