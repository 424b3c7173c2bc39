// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/esprit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace ringfall::signal {
namespace {

using Eigen::Index;
using Eigen::MatrixXcd;

/// H H^* of the Hankel matrix: each entry follows from its upper left neighbour by one term in and one out.
MatrixXcd hankel_covariance(std::span<const std::complex<double>> y, std::size_t rows) {
  const std::size_t columns = y.size() - rows + 1;
  const auto size = static_cast<Index>(rows);
  MatrixXcd covariance(size, size);
  for (std::size_t j = 0; j < rows; ++j) {
    std::complex<double> sum = 0;
    for (std::size_t n = 0; n < columns; ++n) sum += y[j + n] * std::conj(y[n]);
    for (std::size_t i = 0; i + j < rows; ++i) {
      covariance(static_cast<Index>(i + j), static_cast<Index>(i)) = sum;
      if (i + j + 1 < rows)
        sum += y[i + j + columns] * std::conj(y[i + columns]) - y[i + j] * std::conj(y[i]);
    }
  }
  return covariance;  // the lower triangle is what the solver reads
}

using Basis = Eigen::Map<const MatrixXcd>;

Basis first_columns(const std::vector<std::complex<double>>& vectors, std::size_t rows, std::size_t count) {
  return {vectors.data(), static_cast<Index>(rows), static_cast<Index>(count)};
}

/// pinv(basis without its last row) (basis without its first row).
MatrixXcd shift_of(const Basis& basis) {
  const Index rows = basis.rows() - 1;
  // The basis is orthonormal, so upper^* upper = 1 - v v^* with v the conjugate of the last row.
  const Eigen::VectorXcd v = basis.bottomRows(1).adjoint();
  const MatrixXcd projected = basis.topRows(rows).adjoint() * basis.bottomRows(rows);
  const double rest = std::max(1.0 - v.squaredNorm(), 1e-12);
  return projected + v * (v.adjoint() * projected) / rest;
}

}  // namespace

EspritSubspace::EspritSubspace(std::span<const std::complex<double>> y, std::size_t rows) : rows_(rows) {
  check(rows >= 2 && rows < y.size(), "the Hankel matrix has 2 .. M - 1 rows");
  columns_ = y.size() - rows + 1;
  const Eigen::SelfAdjointEigenSolver<MatrixXcd> solver(hankel_covariance(y, rows));
  const MatrixXcd vectors = solver.eigenvectors().rowwise().reverse();
  eigenvectors_.assign(vectors.data(), vectors.data() + vectors.size());
  for (Index i = solver.eigenvalues().size(); i-- > 0;) eigenvalues_.push_back(solver.eigenvalues()[i]);
}

std::size_t EspritSubspace::count_above_noise(std::size_t max_count) const {
  max_count = std::min(max_count, rows_ - 1);
  const double noise = eigenvalues_[max_count + (rows_ - max_count) / 2];
  const double spread = std::pow(1.0 + std::sqrt(static_cast<double>(rows_) / static_cast<double>(columns_)), 4);
  const double least = std::max(spread * noise, 1e-12 * eigenvalues_.front());
  std::size_t count = 0;
  while (count < max_count && eigenvalues_[count] > least) ++count;
  return count;
}

std::size_t EspritSubspace::count_shift_invariant(std::size_t max_count) const {
  max_count = std::min(max_count, rows_ - 1);
  std::vector<double> merit;
  for (std::size_t p = 1; p <= max_count; ++p) {
    const auto basis = first_columns(eigenvectors_, rows_, p);
    const MatrixXcd error = basis.bottomRows(basis.rows() - 1) - basis.topRows(basis.rows() - 1) * shift_of(basis);
    merit.push_back(1.0 / std::max(error.squaredNorm(), 1e-300));
  }
  std::size_t count = merit.size();
  if (merit.empty()) return 0;
  const double best = *std::max_element(merit.begin(), merit.end());
  while (merit[count - 1] < 0.1 * best) --count;
  return count;
}

std::vector<std::complex<double>> EspritSubspace::poles(std::size_t count) const {
  check(count < rows_, "fewer poles than rows");
  if (count == 0) return {};
  const MatrixXcd shift = shift_of(first_columns(eigenvectors_, rows_, count));
  if (count == 1) return {shift(0, 0)};
  const Eigen::ComplexEigenSolver<MatrixXcd> solver(shift, false);
  const auto& values = solver.eigenvalues();
  return {values.data(), values.data() + values.size()};
}

}  // namespace ringfall::signal
