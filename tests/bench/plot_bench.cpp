// SPDX-License-Identifier: GPL-3.0-or-later
#include <benchmark/benchmark.h>

#include <cmath>

#include "plot/layout.h"
#include "plot/write.h"

namespace ringfall::plot {
namespace {

Figure waveform(std::size_t samples) {
  std::vector<double> y;
  for (std::size_t i = 0; i < samples; ++i) y.push_back(std::sin(0.37 * static_cast<double>(i)) * std::cos(0.011 * static_cast<double>(i)));
  Panel panel;
  panel.x = time_axis_s();
  panel.series.push_back(sampled_trace(0.0, 1.0 / 48000.0, std::move(y), Ink::trace1, "sound"));
  Figure figure;
  figure.panels.push_back(std::move(panel));
  return figure;
}

/// Layout is linear in the points: 200,000 against 2,000 should be below a hundredfold.
void layout_of_samples(benchmark::State& state) {
  const Figure figure = waveform(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(layout(figure));
  state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(layout_of_samples)->Arg(2000)->Arg(20000)->Arg(200000)->Unit(benchmark::kMicrosecond);

/// Writing no longer depends on the number of samples once the columns are full.
void svg_of_samples(benchmark::State& state) {
  const Picture picture = layout(waveform(static_cast<std::size_t>(state.range(0)))).picture;
  for (auto _ : state) benchmark::DoNotOptimize(svg_text(picture, Theme::light, "p"));
}
BENCHMARK(svg_of_samples)->Arg(20000)->Arg(200000)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace ringfall::plot
