// SPDX-License-Identifier: GPL-3.0-or-later
#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "shot/find.h"
#include "shot/hits.h"
#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

/// A minute of floor with `shots` shots in it.
std::vector<float> minute(int shots) {
  std::vector<double> wave(48000 * 60, 0.0);
  add_white_noise(wave, 45.0, 1);
  for (int k = 0; k < shots; ++k) add_synthetic_shot(wave, 48000.0, 2.0 + 58.0 * k / std::max(shots, 1), {}, 2);
  return to_full_scale(wave, 120.0);
}

/// The ratio to hold: an hour at 48 kHz (172.8 M samples) in 0.15 s of one core, 0.87 ns a sample, without shots.
void FindInAMinute(benchmark::State& state) {
  const auto samples = minute(static_cast<int>(state.range(0)));
  for (auto _ : state) {
    std::size_t events = 0;
    ShotFinder finder(48000.0, {}, [&](FoundEvent&&) { ++events; });
    for (std::size_t n = 0; n < samples.size(); n += 65536) {
      finder.push(std::span(samples).subspan(n, std::min<std::size_t>(65536, samples.size() - n)));
    }
    finder.finish();
    benchmark::DoNotOptimize(events);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(samples.size()));
}
BENCHMARK(FindInAMinute)->Arg(0)->Arg(3)->Arg(12)->Unit(benchmark::kMillisecond);

/// Summing the same samples: what merely reading them costs.
void ReadAMinute(benchmark::State& state) {
  const auto samples = minute(0);
  std::vector<float> copy(8192);
  for (auto _ : state) {
    for (std::size_t n = 0; n + copy.size() <= samples.size(); n += copy.size()) {
      std::copy_n(samples.begin() + static_cast<std::ptrdiff_t>(n), copy.size(), copy.begin());
      benchmark::DoNotOptimize(copy.data());
    }
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(samples.size()));
}
BENCHMARK(ReadAMinute)->Unit(benchmark::kMillisecond);

void Hits(benchmark::State& state) {
  std::vector<double> wave(48000, 0.0);
  SyntheticShot shot;
  shot.slap_lag_s = {0.006, 0.011};
  add_synthetic_shot(wave, 48000.0, 0.002, shot, 1);
  for (auto _ : state) benchmark::DoNotOptimize(find_hits(std::span(wave).first(3936), 48000.0, 0.002));
}
BENCHMARK(Hits)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace ringfall::shot
