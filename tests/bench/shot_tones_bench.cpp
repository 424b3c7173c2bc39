// SPDX-License-Identifier: GPL-3.0-or-later
#include <benchmark/benchmark.h>

#include "shot/buzz.h"
#include "shot/ring_score.h"
#include "shot/synthetic_shot.h"
#include "shot/tail_tones.h"

namespace {

using namespace ringfall::shot;

/// One 48 kHz shot of a ringing made-up bow with six tones.
std::vector<double> ringing_shot() {
  SyntheticShot shot;
  shot.tones = {{95, 82, 0.6}, {170, 82, 0.7}, {310, 76, 0.5}, {1450, 78, 0.45}, {2350, 76, 0.4}, {4100, 70, 0.3}};
  std::vector<double> sound(76800, 0.0);
  add_synthetic_shot(sound, 48000.0, 0.8, shot, 1);
  add_white_noise(sound, 35.0, 2);
  return sound;
}

/// Argument: end of the tail in ms. Everything about tones, hum, ping and buzz.
void BM_TonesOfOneShot(benchmark::State& state) {
  const auto sound = ringing_shot();
  const MeasureSettings settings;
  const double end_s = 1e-3 * static_cast<double>(state.range(0));
  for (auto _ : state) {
    const TailTones heard = find_tones(cut_tail(sound, 48000.0, 38400.0, end_s, settings), settings);
    benchmark::DoNotOptimize(ring_score(ToneFamily::hum, heard.tones, heard, settings));
    benchmark::DoNotOptimize(ring_score(ToneFamily::ping, heard.tones, heard, settings));
    benchmark::DoNotOptimize(buzz_of(sound, 48000.0, 38400.0, end_s));
  }
}
BENCHMARK(BM_TonesOfOneShot)->Arg(334)->Arg(500)->Unit(benchmark::kMicrosecond);

void BM_CutTail(benchmark::State& state) {
  const auto sound = ringing_shot();
  for (auto _ : state) benchmark::DoNotOptimize(cut_tail(sound, 48000.0, 38400.0, 0.334, {}));
}
BENCHMARK(BM_CutTail)->Unit(benchmark::kMicrosecond);

}  // namespace
