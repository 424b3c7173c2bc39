// SPDX-License-Identifier: GPL-3.0-or-later
// One 48 kHz shot of a made-up bow, impact at 344 ms: the whole of measure_shot, then its parts in their order. What find_tones,
// cut_tail and buzz_of take is in shot_tones_bench.cpp.
#include <benchmark/benchmark.h>

#include "shot/chain_evidence.h"
#include "shot/clip_faults.h"
#include "shot/measure.h"
#include "shot/pressure_clip.h"
#include "shot/room.h"
#include "shot/shot_levels.h"
#include "shot/shot_ring_down.h"
#include "shot/synthetic_shot.h"
#include "signal/shot_loudness.h"

namespace {

using namespace ringfall::shot;

Clip made_up_clip() {
  SyntheticShot shot;
  shot.tones = {{95, 82, 0.35}, {170, 78, 0.5}, {310, 72, 0.3}, {1450, 70, 0.3}, {2350, 66, 0.25}};
  std::vector<double> sound(96000, 0.0);
  add_synthetic_shot(sound, 48000.0, 0.8, shot, 1);
  add_white_noise(sound, 34.0, 2);
  Clip clip;
  clip.sample_rate_hz = 48000.0;
  clip.samples = to_full_scale(sound, 120.0);
  clip.onset_sample = 38400;
  clip.impact_sample = 38400 + 16512;
  return clip;
}

struct Parts {
  Clip clip = made_up_clip();
  MeasureSettings settings;
  PressureClip pressure{clip, Scale{}};
  double end_s = undisturbed_s(clip, settings);
  Floor floor = measure_floor(pressure, settings);
  ShotSegment segment{pressure, end_s};
};

template <class Part>
void run(benchmark::State& state, const Part& part) {
  const Parts parts;
  for (auto _ : state) benchmark::DoNotOptimize(part(parts));
}

void BM_MeasureShot(benchmark::State& state) {
  run(state, [](const Parts& p) { return measure_shot(p.clip, Scale{}, p.settings); });
}
void BM_ClipFaults(benchmark::State& state) {
  run(state, [](const Parts& p) { return clip_faults(p.clip); });
}
void BM_ChainEvidence(benchmark::State& state) {
  run(state, [](const Parts& p) { return chain_evidence(p.clip, p.settings); });
}
void BM_PressureClip(benchmark::State& state) {
  run(state, [](const Parts& p) { return PressureClip(p.clip, Scale{}); });
}
void BM_Floor(benchmark::State& state) {
  run(state, [](const Parts& p) { return measure_floor(p.pressure, p.settings); });
}
void BM_Segment(benchmark::State& state) {
  run(state, [](const Parts& p) { return ShotSegment(p.pressure, p.end_s); });
}
void BM_Levels(benchmark::State& state) {
  run(state, [](const Parts& p) { return measure_levels(p.pressure, p.segment, p.floor, p.settings); });
}
void BM_Loudness(benchmark::State& state) {
  run(state, [](const Parts& p) { return ringfall::signal::shot_loudness(p.pressure.between(-0.03, 0.3), 48000.0); });
}
void BM_RingDown(benchmark::State& state) {
  run(state, [](const Parts& p) { return measure_ring_down(p.segment, p.floor, p.settings); });
}
void BM_Room(benchmark::State& state) {
  run(state, [](const Parts& p) { return impact_decay_s(p.clip, p.settings); });
}

BENCHMARK(BM_MeasureShot)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_ClipFaults)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_ChainEvidence)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_PressureClip)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_Floor)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_Segment)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_Levels)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_Loudness)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_RingDown)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_Room)->Unit(benchmark::kMicrosecond);

}  // namespace
