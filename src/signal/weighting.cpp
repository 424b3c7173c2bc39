// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/weighting.h"

#include <cmath>
#include <cstddef>

#include "base/check.h"
#include "base/units.h"

namespace ringfall::signal {
namespace {

/// The recipe of Annex E: reference, low and high corner of C, low corner of A.
WeightingPoles derive_poles() {
  const double reference = 1000.0;
  const double low = std::pow(10.0, 1.5);
  const double high = std::pow(10.0, 3.9);
  const double a_low = std::pow(10.0, 2.45);
  const double reference2 = reference * reference;
  const double product = low * low * high * high;
  const double half_root = std::sqrt(0.5);
  const double b = (reference2 + product / reference2 - half_root * (low * low + high * high)) / (1.0 - half_root);
  const double root = std::sqrt(b * b - 4.0 * product);
  return {std::sqrt((-b - root) / 2.0), (3.0 - std::sqrt(5.0)) / 2.0 * a_low,
          (3.0 + std::sqrt(5.0)) / 2.0 * a_low, std::sqrt((-b + root) / 2.0)};
}

struct ResponseValue {
  double re = 0.0, im = 0.0;
};

/// A response as a ratio, so that however many factors it has, it costs one division.
struct Ratio {
  ResponseValue top;
  double bottom = 1.0;
};

/// (j f)^2 / ((j f + p)(j f + q)), in plain doubles: std::complex guards against infinities that cannot occur here.
Ratio high_pass(double f, double p, double q) {
  const double f2 = f * f;
  return {{f2 * (f2 - p * q), f2 * f * (p + q)}, (f2 + p * p) * (f2 + q * q)};
}

/// (q / (j f + q))^2
Ratio low_pass(double f, double q) {
  const double q2 = q * q;
  return {{q2 * (q2 - f * f), -2.0 * q2 * f * q}, (f * f + q2) * (f * f + q2)};
}

ResponseValue times(ResponseValue x, ResponseValue y) { return {x.re * y.re - x.im * y.im, x.re * y.im + x.im * y.re}; }
Ratio times(Ratio x, Ratio y) { return {times(x.top, y.top), x.bottom * y.bottom}; }

ResponseValue response_c(double f, const WeightingPoles& poles, double scale) {
  const Ratio ratio = times(high_pass(f, poles.f1_hz, poles.f1_hz), low_pass(f, poles.f4_hz));
  const double gain = scale / ratio.bottom;
  return {gain * ratio.top.re, gain * ratio.top.im};
}

ResponseValue response_a(double f, const WeightingPoles& poles, double scale) {
  const Ratio ratio = times(times(high_pass(f, poles.f1_hz, poles.f1_hz), low_pass(f, poles.f4_hz)),
                            high_pass(f, poles.f2_hz, poles.f3_hz));
  const double gain = scale / ratio.bottom;
  return {gain * ratio.top.re, gain * ratio.top.im};
}

template <ResponseValue (*response)(double, const WeightingPoles&, double)>
void apply(double step_hz, const WeightingPoles& poles, double scale, std::span<std::complex<double>> bins) {
  // Counted in int: from 64 bits without sign to double there is no instruction before AVX-512.
  const int count = static_cast<int>(bins.size());
  for (int k = 0; k < count; ++k) {
    std::complex<double>& bin = bins[static_cast<std::size_t>(k)];
    const ResponseValue weighted = times({bin.real(), bin.imag()}, response(static_cast<double>(k) * step_hz, poles, scale));
    bin = {weighted.re, weighted.im};
  }
}

std::complex<double> unscaled(FrequencyWeighting weighting, double f, const WeightingPoles& poles) {
  const ResponseValue response = weighting == FrequencyWeighting::a ? response_a(f, poles, 1.0) : response_c(f, poles, 1.0);
  return {response.re, response.im};
}

/// Gain at 1 kHz is to be 1.
double scale_of(FrequencyWeighting weighting) {
  if (weighting == FrequencyWeighting::z) return 1.0;
  return 1.0 / std::abs(unscaled(weighting, 1000.0, weighting_poles()));
}

}  // namespace

const WeightingPoles& weighting_poles() {
  static const WeightingPoles poles = derive_poles();
  return poles;
}

std::complex<double> weighting_response(FrequencyWeighting weighting, double frequency_hz) {
  check(frequency_hz >= 0.0, "a weighting is asked at 0 Hz or above");
  if (weighting == FrequencyWeighting::z) return {1.0, 0.0};
  return unscaled(weighting, frequency_hz, weighting_poles()) * scale_of(weighting);
}

void apply_weighting(FrequencyWeighting weighting, double step_hz, std::span<std::complex<double>> bins) {
  check(step_hz > 0.0, "a spectrum has a step");
  if (weighting == FrequencyWeighting::z) return;
  const WeightingPoles poles = weighting_poles();
  const double scale = scale_of(weighting);
  if (weighting == FrequencyWeighting::a) {
    apply<response_a>(step_hz, poles, scale, bins);
  } else {
    apply<response_c>(step_hz, poles, scale, bins);
  }
}

double weighting_db(FrequencyWeighting weighting, double frequency_hz) {
  return amplitude_to_db(std::abs(weighting_response(weighting, frequency_hz)));
}

}  // namespace ringfall::signal
