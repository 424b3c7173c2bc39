// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/damped_sinusoids.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "base/check.h"
#include "signal/damped_sinusoids_model.h"
#include "signal/esprit.h"

namespace ringfall::signal {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kTwoPi = 2.0 * std::numbers::pi;
constexpr std::size_t kLeastBins = 16;
constexpr std::size_t kMostHankelRows = 24;
constexpr int kMostBackgroundTerms = 5;
constexpr int kFirstBackgroundTerms = 2;  ///< while it is not known yet how many are needed
/// A component stays when its amplitude is this many squared standard deviations (chi-square, 2 degrees) from nothing.
/// Far more than one look would ask: the poles were placed where the noise looked most like a tone.
constexpr double kLeastSignificance = 36.0;
/// Below this share of the band's energy nothing is called a component: rounding, not noise, sets the floor there.
constexpr double kRoundingShare = 1e-18;
/// Ends of the iterations in noise variances: to choose the background, and for good (1/100 of a standard deviation).
constexpr double kRoughGain = 0.1, kFineGain = 1e-4;

struct FitBand {
  BinRange inner;  ///< low .. high
  BinRange outer;  ///< with guards
  std::size_t guard = 0;
};

FitBand band_of(const TailSpectrum& tail, double low_hz, double high_hz) {
  check(low_hz >= 0 && low_hz < high_hz && high_hz <= 0.5 * tail.rate_hz() * (1 + 1e-12),
        "a band lies within 0 .. rate/2");
  FitBand band;
  band.inner = bins_between(tail, low_hz, high_hz);
  band.guard = std::max<std::size_t>(4, band.inner.count / 8);
  const double margin_hz = static_cast<double>(band.guard) * tail.bin_hz();
  band.outer = bins_between(tail, low_hz - margin_hz, high_hz + margin_hz);
  return band;
}

/// Starting values from what a fit has left of the band (or from all of it): poles that rise from the noise.
std::vector<Pole> find_poles(const TailSpectrum& tail, const FitBand& band, const VectorXd& rest, std::size_t max_count) {
  const std::size_t taper = std::min(band.guard, band.outer.count / 4);
  std::vector<std::complex<double>> bins;
  const auto count = static_cast<Index>(band.outer.count);
  for (Index i = 0; i < count; ++i) bins.emplace_back(rest[i], rest[count + i]);
  const ZoomedBand zoomed = zoom_bins(tail, band.outer.first, std::move(bins), taper);
  const std::span<const std::complex<double>> clean =
      std::span(zoomed.samples).subspan(zoomed.edge, zoomed.samples.size() - 2 * zoomed.edge);
  const std::size_t rows = std::min(kMostHankelRows, clean.size() / 3);
  const EspritSubspace subspace(clean, rows);
  const double reduction = static_cast<double>(tail.length()) / static_cast<double>(band.outer.count);
  std::vector<Pole> poles;
  for (const auto& z : subspace.poles(subspace.count_shift_invariant(subspace.count_above_noise(max_count)))) {
    double turn = std::arg(z);
    if (turn < 0) turn += kTwoPi;
    const double omega = kTwoPi * zoomed.zero_hz / tail.rate_hz() + turn / reduction;
    const double alpha = -std::log(std::max(std::abs(z), 1e-3)) / reduction;
    const double least_alpha = -2.0 / static_cast<double>(tail.length());
    if (omega > 0 && omega < std::numbers::pi) poles.push_back({omega, std::max(alpha, least_alpha)});
  }
  return poles;
}

int most_terms(const BandModel& model, std::size_t poles) {
  const auto spare = static_cast<int>(model.rows()) - 4 * static_cast<int>(poles) - 8;
  return std::clamp(spare / 4, 0, kMostBackgroundTerms);
}

/// Covariance of amplitudes and poles over noise variance, from the whole model, background included.
struct Spread {
  MatrixXd inverse;  ///< of the Gram matrix of [columns | slopes]
  double variance;   ///< noise, each real row
};

Spread spread_of(const LinearFit& fit) {
  MatrixXd all(fit.residual.size(), fit.columns.cols() + fit.slopes.cols());
  all << fit.columns, fit.slopes;
  MatrixXd gram = all.transpose() * all;
  // Unit diagonal: amplitudes and poles differ by many powers of ten.
  const VectorXd scale = gram.diagonal().cwiseMax(1e-300).cwiseSqrt().cwiseInverse();
  gram = scale.asDiagonal() * gram * scale.asDiagonal();
  gram.diagonal().array() += 1e-13;
  const MatrixXd identity = MatrixXd::Identity(gram.rows(), gram.cols());
  const MatrixXd inverse = Eigen::LDLT<MatrixXd>(gram).solve(identity);
  const auto spare = static_cast<double>(std::max<Index>(1, all.rows() - all.cols()));
  return {scale.asDiagonal() * inverse * scale.asDiagonal(), fit.sum_of_squares / spare};
}

/// The weakest component's index, or none when all stand out.
std::optional<std::size_t> weakest(const LinearFit& fit, const BandModel& model) {
  const Spread spread = spread_of(fit);
  std::optional<std::size_t> found;
  double least = kLeastSignificance;
  const double rounding = kRoundingShare * model.target().squaredNorm();
  for (std::size_t m = 0; m < fit.poles.size(); ++m) {
    const auto at = static_cast<Index>(2 * m);
    const Eigen::Vector2d amplitude = fit.coefficients.segment(at, 2);
    const Eigen::Matrix2d block = spread.inverse.block(at, at, 2, 2);
    const double squares = amplitude.dot(block.inverse() * amplitude);
    const double significance = squares / (spread.variance + rounding);
    if (!(significance >= least)) {
      least = significance;
      found = m;
    }
  }
  return found;
}

/// Fits, drops the weakest component that noise explains, fits again, until all that are left stand out.
LinearFit fit_and_prune(const BandModel& model, std::vector<Pole> poles) {
  for (;;) {
    const int most = most_terms(model, poles.size());
    const int first = std::min(kFirstBackgroundTerms, most);
    LinearFit fit = model.refine(model.solve(poles, first), first, kRoughGain);
    const int terms = model.choose_terms(fit, most);
    fit = model.refine(model.solve(fit.poles, terms), terms, kFineGain);
    const auto dropped = weakest(fit, model);
    if (!dropped) return fit;
    poles = fit.poles;
    poles.erase(poles.begin() + static_cast<std::ptrdiff_t>(*dropped));
  }
}

/// Fits what stands out at once, then what stands out from the rest, as long as that finds something: the residual of the
/// exact model is free of the gate's ringing that hides weak tones beside strong ones.
LinearFit find_and_fit(const TailSpectrum& tail, const FitBand& band, const BandModel& model, std::size_t max_count) {
  LinearFit fit = fit_and_prune(model, find_poles(tail, band, model.target(), max_count));
  while (fit.poles.size() < max_count) {
    std::vector<Pole> poles = find_poles(tail, band, fit.residual, max_count - fit.poles.size());
    if (poles.empty()) break;
    poles.insert(poles.begin(), fit.poles.begin(), fit.poles.end());
    LinearFit more = fit_and_prune(model, std::move(poles));
    if (more.poles.size() <= fit.poles.size()) break;
    fit = std::move(more);
  }
  return fit;
}

DampedSinusoid describe(const LinearFit& fit, const Spread& spread, std::size_t m, double rate_hz) {
  const auto at = static_cast<Index>(2 * m);
  const Eigen::Vector2d a = fit.coefficients.segment(at, 2);
  const Eigen::Vector2d along = a / a.norm();
  const double amplitude_variance = along.dot(spread.inverse.block(at, at, 2, 2) * along);
  const Index by_omega = fit.columns.cols() + at;
  const auto sd = [&](double inverse) { return std::sqrt(std::max(0.0, inverse * spread.variance)); };
  DampedSinusoid tone;
  tone.frequency_hz = fit.poles[m].omega * rate_hz / kTwoPi;
  tone.decay_per_s = fit.poles[m].alpha * rate_hz;
  tone.amplitude = 2.0 * a.norm();
  tone.phase_rad = std::atan2(a[1], a[0]);
  tone.frequency_sd_hz = sd(spread.inverse(by_omega, by_omega)) * rate_hz / kTwoPi;
  tone.decay_sd_per_s = sd(spread.inverse(by_omega + 1, by_omega + 1)) * rate_hz;
  tone.amplitude_sd = 2.0 * sd(amplitude_variance);
  return tone;
}

DampedSinusoidFit report(const TailSpectrum& tail, const FitBand& band, const BandModel& model, const LinearFit& fit,
                         double low_hz, double high_hz, const DampedSinusoidLimits& limits) {
  DampedSinusoidFit result;
  const Spread spread = spread_of(fit);
  result.noise_rms = std::sqrt(2.0 * spread.variance / static_cast<double>(tail.length()));
  VectorXd rest = model.target();
  for (std::size_t m = 0; m < fit.poles.size(); ++m) {
    const DampedSinusoid tone = describe(fit, spread, m, tail.rate_hz());
    const bool wanted = tone.frequency_hz >= low_hz && tone.frequency_hz <= high_hz && tone.decay_per_s > 0 &&
                        tone.ring_time_s() >= limits.shortest_ring_s && tone.ring_time_s() <= limits.longest_ring_s;
    if (!wanted) continue;
    result.sinusoids.push_back(tone);
    const auto at = static_cast<Index>(2 * m);
    rest -= fit.columns.middleCols(at, 2) * fit.coefficients.segment(at, 2);
  }
  std::sort(result.sinusoids.begin(), result.sinusoids.end(),
            [](const auto& one, const auto& other) { return one.frequency_hz < other.frequency_hz; });
  const auto skip = static_cast<Index>(band.inner.first - band.outer.first);
  const auto inner = static_cast<Index>(band.inner.count);
  const auto energy = [&](const VectorXd& bins) {
    return bins.segment(skip, inner).squaredNorm() + bins.segment(model.rows() / 2 + skip, inner).squaredNorm();
  };
  const double whole = energy(model.target());
  if (whole > 0) result.explained = std::clamp(1.0 - energy(rest) / whole, 0.0, 1.0);
  return result;
}

}  // namespace

double DampedSinusoid::ring_time_s() const { return 3.0 * std::numbers::ln10 / decay_per_s; }
double DampedSinusoid::ring_time_sd_s() const { return ring_time_s() * decay_sd_per_s / decay_per_s; }
double DampedSinusoid::damping_ratio() const { return decay_per_s / std::hypot(decay_per_s, kTwoPi * frequency_hz); }
double DampedSinusoid::quality_factor() const { return 0.5 / damping_ratio(); }
double DampedSinusoid::log_decrement() const { return decay_per_s / frequency_hz; }

DampedSinusoidFit fit_damped_sinusoids(const TailSpectrum& tail, double low_hz, double high_hz,
                                       const DampedSinusoidLimits& limits) {
  check(limits.max_count >= 1 && limits.max_count <= 8, "1 .. 8 components");
  const FitBand band = band_of(tail, low_hz, high_hz);
  if (band.inner.count == 0 || band.outer.count < kLeastBins) return {};
  const BandModel model(tail, band.outer);
  if (!(model.target().squaredNorm() > 0)) return {};
  const LinearFit fit = find_and_fit(tail, band, model, static_cast<std::size_t>(limits.max_count));
  return report(tail, band, model, fit, low_hz, high_hz, limits);
}

DampedSinusoidFit refine_damped_sinusoids(const TailSpectrum& tail, double low_hz, double high_hz,
                                          std::span<const DampedSinusoid> initial, const DampedSinusoidLimits& limits) {
  const FitBand band = band_of(tail, low_hz, high_hz);
  if (band.inner.count == 0 || band.outer.count < kLeastBins) return {};
  const BandModel model(tail, band.outer);
  if (!(model.target().squaredNorm() > 0)) return {};
  std::vector<Pole> poles;
  for (const DampedSinusoid& tone : initial)
    poles.push_back({kTwoPi * tone.frequency_hz / tail.rate_hz(), tone.decay_per_s / tail.rate_hz()});
  return report(tail, band, model, fit_and_prune(model, poles), low_hz, high_hz, limits);
}

}  // namespace ringfall::signal
