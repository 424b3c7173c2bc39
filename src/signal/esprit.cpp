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

std::vector<std::complex<double>> EspritSubspace::poles(std::size_t count) const {
  check(count < rows_, "fewer poles than rows");
  if (count == 0) return {};
  const auto rows = static_cast<Index>(rows_);
  const Eigen::Map<const MatrixXcd> basis(eigenvectors_.data(), rows, static_cast<Index>(count));
  const auto upper = basis.topRows(rows - 1);
  // The basis is orthonormal, so upper^* upper = 1 - v v^* with v the conjugate of the last row.
  const Eigen::VectorXcd v = basis.bottomRows(1).adjoint();
  const MatrixXcd projected = upper.adjoint() * basis.bottomRows(rows - 1);
  const double rest = std::max(1.0 - v.squaredNorm(), 1e-12);
  const MatrixXcd shift = projected + v * (v.adjoint() * projected) / rest;
  if (count == 1) return {shift(0, 0)};
  const Eigen::ComplexEigenSolver<MatrixXcd> solver(shift, false);
  const auto& values = solver.eigenvalues();
  return {values.data(), values.data() + values.size()};
}

}  // namespace ringfall::signal
