// SPDX-License-Identifier: GPL-3.0-or-later
#include <benchmark/benchmark.h>

#include "signal/loudness.h"
#include "signal/loudness_signals.h"
#include "signal/shot_loudness.h"

// Loudness and sharpness of one shot window (0.36 s). Wanted: 1.5 ms or less at 48 kHz on one core.
// tests/signal/plain_loudness.cpp is the slow twin.
namespace ringfall::signal {
namespace {

void shot_loudness_at_48_khz(benchmark::State& state) {
  const std::vector<double> x = test_sounds::shot();
  for (auto _ : state) benchmark::DoNotOptimize(shot_loudness(x, 48000.0));
}
BENCHMARK(shot_loudness_at_48_khz)->Unit(benchmark::kMillisecond);

void shot_loudness_at_44_khz(benchmark::State& state) {
  const std::vector<double> x = test_sounds::shot();
  for (auto _ : state) benchmark::DoNotOptimize(shot_loudness(x, 44100.0));
}
BENCHMARK(shot_loudness_at_44_khz)->Unit(benchmark::kMillisecond);

void only_the_filters(benchmark::State& state) {
  const std::vector<double> x = test_sounds::shot();
  for (auto _ : state) benchmark::DoNotOptimize(smoothed_band_powers(x, 48000.0));
}
BENCHMARK(only_the_filters)->Unit(benchmark::kMillisecond);

void trace_with_specific_loudness(benchmark::State& state) {
  const std::vector<double> x = test_sounds::shot();
  for (auto _ : state)
    benchmark::DoNotOptimize(time_varying_loudness(x, 48000.0, SoundField::free, KeepSpecific::yes));
}
BENCHMARK(trace_with_specific_loudness)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ringfall::signal
