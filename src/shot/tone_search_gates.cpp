// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_gates.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>

#include "signal/fft.h"

namespace ringfall::shot {
namespace {

/// sin^4 by the recurrence of its cosines: 3/8 - cos(a)/2 + cos(2a)/8, a = 2 pi t / length.
double window(double share) {
  const double c = std::cos(2.0 * std::numbers::pi * share);
  const double s = 0.5 * (1.0 - c);
  return s * s;
}

std::size_t even_fast_length(std::size_t n) {
  std::size_t size = signal::fast_length(n);
  while (size % 2 != 0) size = signal::fast_length(size + 1);
  return size;
}

std::vector<Gate> gates_of(double start_s, double tail_end_s, std::span<const Gate> shapes) {
  std::vector<Gate> gates;
  for (const Gate& shape : shapes) {
    const double begin = start_s + shape.begin_s;
    const double length = std::min(shape.length_s, tail_end_s - begin);
    // A later gate must be long enough to see something new.
    if (length < shapes.front().length_s * 0.8) continue;
    gates.push_back({begin, length});
  }
  return gates;
}

}  // namespace

template <typename Sample>
GateSpectrum gate_spectrum(std::span<const Sample> samples, double rate_hz, const Gate& gate, double begin_s,
                           double padding) {
  GateSpectrum spectrum;
  spectrum.gate = gate;
  const double offset = (gate.begin_s - begin_s) * rate_hz;  // of the gate's begin, in samples
  const double length = gate.length_s * rate_hz;
  const auto first = static_cast<std::ptrdiff_t>(std::max(0.0, std::ceil(offset)));
  const auto end = std::min(static_cast<std::ptrdiff_t>(samples.size()),
                            static_cast<std::ptrdiff_t>(std::floor(offset + length)) + 1);
  if (end <= first) return spectrum;
  const auto count = static_cast<std::size_t>(end - first);
  // From the gate alone, not from where its ends fall between samples: all shots get the same bins.
  const std::size_t size = even_fast_length(static_cast<std::size_t>(std::ceil(padding * length)) + 1);
  std::vector<double> windowed(size, 0.0);
  double sum = 0.0;
  // cos by rotation: one multiplication a sample.
  const std::complex<double> step = std::polar(1.0, 2.0 * std::numbers::pi / length);
  std::complex<double> turn = std::polar(1.0, 2.0 * std::numbers::pi * (static_cast<double>(first) - offset) / length);
  for (std::size_t n = 0; n < count; ++n) {
    const double s = 0.5 * (1.0 - turn.real());
    const double w = s * s;
    windowed[n] = w * static_cast<double>(samples[static_cast<std::size_t>(first) + n]);
    sum += w;
    turn *= step;
  }
  std::vector<std::complex<double>> bins(size / 2 + 1);
  signal::fft_real(windowed, bins);
  spectrum.bin_hz = rate_hz / static_cast<double>(size);
  spectrum.power.resize(bins.size());
  const double scale = 2.0 / (sum * sum);
  for (std::size_t k = 0; k < bins.size(); ++k) spectrum.power[k] = scale * std::norm(bins[k]);
  return spectrum;
}

template GateSpectrum gate_spectrum<double>(std::span<const double>, double, const Gate&, double, double);
template GateSpectrum gate_spectrum<float>(std::span<const float>, double, const Gate&, double, double);

double gate_gain(const Gate& gate, double decay_per_s, double from_s) {
  constexpr int kPoints = 48;  // the rectangle rule is exact to 1e-6 for a window this smooth
  static const auto weights = [] {
    std::array<double, kPoints> values{};
    double sum = 0.0;
    for (int i = 1; i < kPoints; ++i) sum += window(static_cast<double>(i) / kPoints);
    for (int i = 1; i < kPoints; ++i) values[static_cast<std::size_t>(i)] = window(static_cast<double>(i) / kPoints) / sum;
    return values;
  }();
  // Horner's rule in the decay from point to point; weights[0] is 0.
  const double step = std::exp(-decay_per_s * gate.length_s / kPoints);
  double ratio = 0.0;
  for (std::size_t i = weights.size(); i-- > 0;) ratio = ratio * step + weights[i];
  ratio *= std::exp(-decay_per_s * (gate.begin_s - from_s));
  return std::max(ratio * ratio, 1e-30);
}

std::optional<double> decay_between(const Gate& early, const Gate& late, double ratio) {
  // The shortest ring time that lasts from gate to gate, the longest that falls between them.
  constexpr double kShortest_s = 0.025, kLongest_s = 20.0;
  const auto gains = [&](double decay) { return gate_gain(late, decay, 0.0) / gate_gain(early, decay, 0.0); };
  double slow = 3.0 * std::numbers::ln10 / kLongest_s, fast = 3.0 * std::numbers::ln10 / kShortest_s;
  if (!(ratio < gains(slow)) || !(ratio > gains(fast))) return std::nullopt;
  for (int i = 0; i < 24; ++i) {
    const double middle = std::sqrt(slow * fast);
    (gains(middle) > ratio ? slow : fast) = middle;
  }
  return std::sqrt(slow * fast);
}

bool independent(const Gate& one, const Gate& other) {
  constexpr double kHalfHeight = 0.364;  // width of sin^4 over its length
  constexpr double kShare = 0.75;
  const double apart = std::abs(one.begin_s + 0.5 * one.length_s - other.begin_s - 0.5 * other.length_s);
  return apart > kShare * 0.5 * kHalfHeight * (one.length_s + other.length_s);
}

std::vector<Gate> low_gates(double tail_end_s, const MeasureSettings& settings) {
  constexpr Gate kShapes[] = {{0.0, 0.100}, {0.040, 0.100}, {0.050, 0.160}, {0.080, 0.250}, {0.125, 0.250}};
  return gates_of(settings.hum_tail_start_s, tail_end_s, kShapes);
}

std::vector<Gate> high_gates(double tail_end_s, const MeasureSettings& settings) {
  constexpr Gate kShapes[] = {{0.0, 0.050}, {0.015, 0.120}, {0.070, 0.080}, {0.045, 0.250}};
  return gates_of(settings.ping_tail_start_s, tail_end_s, kShapes);
}

}  // namespace ringfall::shot
