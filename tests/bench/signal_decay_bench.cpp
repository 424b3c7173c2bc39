// SPDX-License-Identifier: GPL-3.0-or-later
// What levels, bands and decays of one shot cost: 0.7 s at 48 kHz. The transform alone is the yardstick.
#include <benchmark/benchmark.h>

#include <cmath>
#include <complex>
#include <optional>
#include <random>
#include <vector>

#include "signal/decay.h"
#include "signal/fft.h"
#include "signal/levels.h"
#include "signal/segment_spectrum.h"

namespace {

using namespace ringfall::signal;

constexpr double kRate_hz = 48000.0;

std::vector<double> dying_noise() {
  std::mt19937_64 random(1);
  std::normal_distribution<double> normal;
  std::vector<double> pressure(33600);
  for (std::size_t n = 0; n < pressure.size(); ++n) {
    const double time_s = static_cast<double>(n) / kRate_hz - 0.1;
    const double envelope = time_s < 0.0 ? 0.0 : std::exp(-6.9078 * time_s / 0.25);
    pressure[n] = normal(random) * (envelope + 1e-3);
  }
  return pressure;
}

void transform_alone(benchmark::State& state) {
  std::vector<double> pressure = dying_noise();
  pressure.resize(40960);
  std::vector<std::complex<double>> bins(pressure.size() / 2 + 1);
  for (auto _ : state) {
    fft_real(pressure, bins);
    benchmark::DoNotOptimize(bins.data());
  }
}
BENCHMARK(transform_alone)->Unit(benchmark::kMicrosecond);

void spectrum(benchmark::State& state) {
  const auto pressure = dying_noise();
  for (auto _ : state) benchmark::DoNotOptimize(SegmentSpectrum(pressure, kRate_hz));
}
BENCHMARK(spectrum)->Unit(benchmark::kMicrosecond);

void a_weighting(benchmark::State& state) {
  const SegmentSpectrum segment(dying_noise(), kRate_hz);
  for (auto _ : state) benchmark::DoNotOptimize(segment.weighted(FrequencyWeighting::a));
}
BENCHMARK(a_weighting)->Unit(benchmark::kMicrosecond);

void eight_octaves(benchmark::State& state) {
  const SegmentSpectrum segment(dying_noise(), kRate_hz);
  for (auto _ : state) {
    for (const Band& band : octave_bands()) benchmark::DoNotOptimize(segment.band_power(band));
  }
}
BENCHMARK(eight_octaves)->Unit(benchmark::kMicrosecond);

void high_band_alone(benchmark::State& state) {
  const SegmentSpectrum segment(dying_noise(), kRate_hz);
  for (auto _ : state) benchmark::DoNotOptimize(segment.band_power(high_band()));
}
BENCHMARK(high_band_alone)->Unit(benchmark::kMicrosecond);

void fast_maximum(benchmark::State& state) {
  const auto pressure = dying_noise();
  for (auto _ : state) {
    benchmark::DoNotOptimize(time_weighted_maximum(pressure, kRate_hz, TimeWeighting::fast));
  }
}
BENCHMARK(fast_maximum)->Unit(benchmark::kMicrosecond);

void decay_of_pressure(benchmark::State& state) {
  auto squares = dying_noise();
  squares.erase(squares.begin(), squares.begin() + 4800);
  for (double& value : squares) value *= value;
  for (auto _ : state) benchmark::DoNotOptimize(measure_decay(squares, kRate_hz, 1e-6));
}
BENCHMARK(decay_of_pressure)->Unit(benchmark::kMicrosecond);

void decays_of_eight_octaves(benchmark::State& state) {
  const SegmentSpectrum segment(dying_noise(), kRate_hz);
  std::vector<BandPower> bands;
  for (const Band& band : octave_bands()) bands.push_back(segment.band_power(band).value());
  for (auto _ : state) {
    for (const BandPower& power : bands) {
      benchmark::DoNotOptimize(measure_decay(power.between(0.1, 0.6), power.rate_hz, std::nullopt));
    }
  }
}
BENCHMARK(decays_of_eight_octaves)->Unit(benchmark::kMicrosecond);

}  // namespace
