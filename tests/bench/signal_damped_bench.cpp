// SPDX-License-Identifier: GPL-3.0-or-later
#include <benchmark/benchmark.h>

#include <random>

#include "signal/damped_sinusoid_reference.h"

/// One tone (or none, or a pair) in a 120 Hz band of a 0.4 s tail at 48 kHz, 40 dB above noise; and the tail's
/// spectrum, needed once a shot.
namespace ringfall::signal {
namespace {

using namespace reference;

std::vector<double> tail_samples(int tones) {
  std::vector<DampedSinusoid> modes;
  if (tones > 0) modes.push_back(tone(2000, 15));
  if (tones > 1) modes.push_back(tone(2012, 10, 0.5));
  auto x = samples(modes, 48000, 19200);
  std::mt19937_64 random(1);
  add_noise(x, noise_sd(1, 40), random);
  return x;
}

void spectrum_of_the_tail(benchmark::State& state) {
  const auto x = tail_samples(1);
  for (auto _ : state) benchmark::DoNotOptimize(TailSpectrum(x, 48000));
}
BENCHMARK(spectrum_of_the_tail);

void fit_band(benchmark::State& state) {
  const TailSpectrum tail(tail_samples(static_cast<int>(state.range(0))), 48000);
  for (auto _ : state) benchmark::DoNotOptimize(fit_damped_sinusoids(tail, 1940, 2060));
}
BENCHMARK(fit_band)->Arg(0)->Arg(1)->Arg(2);

void refine_known_tone(benchmark::State& state) {
  const TailSpectrum tail(tail_samples(1), 48000);
  const std::vector<DampedSinusoid> known = {tone(2000.3, 12)};
  for (auto _ : state) benchmark::DoNotOptimize(refine_damped_sinusoids(tail, 1940, 2060, known));
}
BENCHMARK(refine_known_tone);

}  // namespace
}  // namespace ringfall::signal
