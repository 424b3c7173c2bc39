// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/damped_sinusoids_model.h"

#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace ringfall::signal {
namespace {

using Complex = std::complex<double>;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Keeps the factorisations alive when poles coincide; far below what a fit can tell.
constexpr double kRidge = 1e-14;

Eigen::LDLT<MatrixXd> factor(MatrixXd gram) {
  gram.diagonal() *= 1.0 + kRidge;
  return Eigen::LDLT<MatrixXd>(gram);
}

/// Poles that grow by more than e^8 over the tail, or are gone within a sample, are no sensible step.
bool sensible(const std::vector<Pole>& poles, double length) {
  for (const Pole& pole : poles)
    if (!(pole.alpha * length > -8.0) || !(pole.alpha < 1.0) || !(pole.omega > 0.0) ||
        !(pole.omega < std::numbers::pi))
      return false;
  return true;
}

}  // namespace

BandModel::BandModel(const TailSpectrum& tail, BinRange range)
    : length_(static_cast<double>(tail.length())), turns_(range.count) {
  const auto count = static_cast<Index>(range.count);
  target_.resize(2 * count);
  for (Index i = 0; i < count; ++i) {
    const std::size_t bin = range.first + static_cast<std::size_t>(i);
    turns_[static_cast<std::size_t>(i)] =
        std::polar(1.0, -2.0 * std::numbers::pi * static_cast<double>(bin) / length_);
    target_[i] = tail.bins()[bin].real();
    target_[count + i] = tail.bins()[bin].imag();
  }
}

/// g(s) = (1 - z^N)/(1 - z t_k), z = e^s, and dg/ds, for the pole (plus) and its mirror image (minus). With x = 2 Re(a z^n)
/// the bin is a g(s) + a^* g(s^*), and d/d omega = j (a g'(s) - a^* g'(s^*)), d/d alpha = -(a g'(s) + a^* g'(s^*)). The slopes
/// here are still without a; solve() puts it in.
void BandModel::fill_pole(const Pole& pole, Index m, LinearFit& fit) const {
  const auto count = static_cast<Index>(turns_.size());
  const Complex z = std::polar(std::exp(-pole.alpha), pole.omega);
  const Complex last = std::polar(std::exp(-pole.alpha * length_), pole.omega * length_);
  const Complex top = 1.0 - last;
  double* re = fit.columns.col(2 * m).data();
  double* im = fit.columns.col(2 * m + 1).data();
  double* plus = fit.slopes.col(2 * m).data();
  double* minus = fit.slopes.col(2 * m + 1).data();
  // An undamped pole on a bin is a limit that the quotients can't reach; keep a hair away from it.
  constexpr double kLeast = 1e-24;
  const auto part = [&](const Complex& pole_z, const Complex& pole_top, const Complex& pole_last, const Complex& turn,
                        Complex& value, Complex& slope) {
    const Complex turned = pole_z * turn;
    const Complex below = 1.0 - turned;
    const double square = std::max(std::norm(below), kLeast);
    const Complex inverse = std::conj(below) / square;
    value = pole_top * inverse;
    slope = (value * turned - length_ * pole_last) * inverse;
  };
  for (Index i = 0; i < count; ++i) {
    const Complex turn = turns_[static_cast<std::size_t>(i)];
    Complex g, dg, image, dimage;
    part(z, top, last, turn, g, dg);
    part(std::conj(z), std::conj(top), std::conj(last), turn, image, dimage);
    re[i] = g.real() + image.real();
    re[count + i] = g.imag() + image.imag();
    im[i] = image.imag() - g.imag();
    im[count + i] = g.real() - image.real();
    plus[i] = dg.real();
    plus[count + i] = dg.imag();
    minus[i] = dimage.real();
    minus[count + i] = dimage.imag();
  }
}

void BandModel::fill_background(int terms, Eigen::Ref<MatrixXd> columns) const {
  const auto count = static_cast<Index>(turns_.size());
  columns.setZero();
  for (Index i = 0; i < count; ++i) {
    const double t = 2.0 * static_cast<double>(i) / static_cast<double>(count - 1) - 1.0;
    double before = 0.0, legendre = 1.0;
    for (int term = 0; term < terms; ++term) {
      columns(i, 2 * term) = legendre;
      columns(count + i, 2 * term + 1) = legendre;
      const double next = ((2 * term + 1) * t * legendre - term * before) / (term + 1);
      before = std::exchange(legendre, next);
    }
  }
}

LinearFit BandModel::solve(const std::vector<Pole>& poles, int terms) const {
  const auto count = static_cast<Index>(turns_.size());
  const auto p = static_cast<Index>(poles.size());
  LinearFit fit;
  fit.poles = poles;
  fit.columns.resize(2 * count, 2 * (p + terms));
  fit.slopes.resize(2 * count, 2 * p);
  for (Index m = 0; m < p; ++m) fill_pole(poles[static_cast<std::size_t>(m)], m, fit);
  fill_background(terms, fit.columns.rightCols(2 * terms));
  if (fit.columns.cols() == 0) {
    fit.residual = target_;
  } else {
    const auto solver = factor(fit.columns.transpose() * fit.columns);
    fit.coefficients = solver.solve(fit.columns.transpose() * target_);
    fit.residual = target_ - fit.columns * fit.coefficients;
    // One step of iterative refinement: the normal equations alone lose half the digits of close poles.
    fit.coefficients += solver.solve(fit.columns.transpose() * fit.residual);
    fit.residual.noalias() = target_ - fit.columns * fit.coefficients;
  }
  fit.sum_of_squares = fit.residual.squaredNorm();
  for (Index m = 0; m < p; ++m) {
    const Complex a(fit.coefficients[2 * m], fit.coefficients[2 * m + 1]);
    double* first = fit.slopes.col(2 * m).data();
    double* second = fit.slopes.col(2 * m + 1).data();
    for (Index i = 0; i < count; ++i) {
      const Complex plus = a * Complex(first[i], first[count + i]);
      const Complex minus = std::conj(a) * Complex(second[i], second[count + i]);
      const Complex by_omega = Complex(0, 1) * (plus - minus);
      const Complex by_alpha = -(plus + minus);
      first[i] = by_omega.real();
      first[count + i] = by_omega.imag();
      second[i] = by_alpha.real();
      second[count + i] = by_alpha.imag();
    }
  }
  return fit;
}

LinearFit BandModel::refine(LinearFit fit, int terms, double least_gain) const {
  constexpr int kMaxSteps = 15;
  const auto p = static_cast<Index>(fit.poles.size());
  if (p == 0) return fit;
  const double exact = 1e-30 * target_.squaredNorm();
  double damping = 1e-4;
  for (int step = 0; step < kMaxSteps && fit.sum_of_squares > exact; ++step) {
    const MatrixXd cross = fit.columns.transpose() * fit.slopes;
    const auto linear = factor(fit.columns.transpose() * fit.columns);
    const MatrixXd curvature = fit.slopes.transpose() * fit.slopes - cross.transpose() * linear.solve(cross);
    const VectorXd gradient = fit.slopes.transpose() * fit.residual;
    bool better = false;
    double gain = 0;
    while (damping < 1e6) {
      MatrixXd damped = curvature;
      damped.diagonal() *= 1.0 + damping;
      const VectorXd change = factor(damped).solve(gradient);
      std::vector<Pole> poles = fit.poles;
      for (Index m = 0; m < p; ++m) {
        poles[static_cast<std::size_t>(m)].omega += change[2 * m];
        poles[static_cast<std::size_t>(m)].alpha += change[2 * m + 1];
      }
      if (change.allFinite() && sensible(poles, length_)) {
        LinearFit next = solve(poles, terms);
        if (next.sum_of_squares < fit.sum_of_squares) {
          gain = fit.sum_of_squares - next.sum_of_squares;
          fit = std::move(next);
          damping *= 0.1;
          better = true;
          break;
        }
      }
      damping *= 10.0;
    }
    const double variance = fit.sum_of_squares / static_cast<double>(rows());
    if (!better || gain < least_gain * variance) break;
  }
  return fit;
}

int BandModel::choose_terms(const LinearFit& fit, int most) const {
  const auto p = static_cast<Index>(fit.poles.size());
  // Rest of the data when amplitudes and poles may move freely to first order, then each background column in turn:
  // forward substitution of a Cholesky factor gives all of these nested sums of squares at once.
  MatrixXd all(rows(), 4 * p + 2 * most);
  all.leftCols(2 * p) = fit.columns.leftCols(2 * p);
  all.middleCols(2 * p, 2 * p) = fit.slopes;
  fill_background(most, all.rightCols(2 * most));
  const VectorXd data = target_ - fit.columns.leftCols(2 * p) * fit.coefficients.head(2 * p);
  MatrixXd gram = all.transpose() * all;
  gram.diagonal() *= 1.0 + 1e-12;
  const Eigen::LLT<MatrixXd> solver(gram);
  const VectorXd parts = solver.matrixL().solve(all.transpose() * data);
  double rest = data.squaredNorm() - parts.head(4 * p).squaredNorm();
  const auto n = static_cast<double>(rows());
  const double least = 1e-28 * target_.squaredNorm() + std::numeric_limits<double>::min();
  double best = std::numeric_limits<double>::infinity();
  int chosen = 0;
  for (int terms = 0; terms <= most; ++terms) {
    const double criterion = n * std::log(std::max(rest, least)) + 2.0 * terms * std::log(n);
    if (criterion < best) {
      best = criterion;
      chosen = terms;
    }
    if (terms < most) rest -= parts.segment(4 * p + 2 * terms, 2).squaredNorm();
  }
  return chosen;
}

}  // namespace ringfall::signal
