// SPDX-License-Identifier: GPL-3.0-or-later
// Known tones read in one shot: no search, so a weak one does not come and go from shot to shot.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/units.h"
#include "shot/tail_tones.h"
#include "shot/tone_search.h"
#include "shot/tone_search_fit.h"

namespace ringfall::shot {
namespace {

constexpr double kTolerance = 0.006;
/// Over the noise by this much the shot's own ring time is read, below the pooled one is kept.
constexpr double kOwnRing_db = 20.0;
/// Reading under the noise by this much is no reading.
constexpr double kHidden_db = 0.0;

struct Reading {
  std::size_t gate = 0;
  double power = 0.0;   ///< line with its noise
  double noise = 0.0;   ///< mean noise in the bin
  double frequency_hz = 0.0;
};

Reading read_gate(const BandView& view, std::size_t g, double f) {
  const GateSpectrum& spectrum = view.spectra[g];
  const double reach = kTolerance * f;
  const auto last = static_cast<double>(spectrum.power.size() - 2);
  const auto from = static_cast<std::size_t>(std::clamp(std::round((f - reach) / spectrum.bin_hz), 1.0, last));
  const auto to = static_cast<std::size_t>(std::clamp(std::round((f + reach) / spectrum.bin_hz), 1.0, last));
  Reading reading;
  reading.gate = g;
  const auto best = std::max_element(spectrum.power.begin() + static_cast<std::ptrdiff_t>(from),
                                     spectrum.power.begin() + static_cast<std::ptrdiff_t>(to) + 1);
  reading.power = *best;
  reading.frequency_hz = spectrum.bin_hz * static_cast<double>(best - spectrum.power.begin());
  reading.noise = noise_around(spectrum.power, spectrum.bin_hz, rules_for(view, g), f) / std::numbers::ln2;
  return reading;
}

/// Read in the gate that shows a tone of this decay best in this shot's noise.
Reading best_reading(const BandView& view, double f, double decay) {
  Reading best;
  double highest = -1.0;
  for (std::size_t g = 0; g < view.spectra.size(); ++g) {
    const Reading reading = read_gate(view, g, f);
    const double expected = gate_gain(view.spectra[g].gate, decay, view.start_s) / std::max(reading.noise, 1e-30);
    if (expected > highest) {
      highest = expected;
      best = reading;
    }
  }
  return best;
}

}  // namespace

std::vector<Tone> read_tones(const TailSound& shot, std::span<const Tone> tones, const MeasureSettings& settings) {
  const TailSound* one[] = {&shot};
  const BandView low = view_low(one, settings);
  const BandView high = view_high(one, settings);
  std::vector<Tone> readings;
  for (const BandView* view : {&low, &high}) {
    if (view->spectra.empty()) continue;
    const std::vector<Candidate> candidates = find_candidates(*view, shot.steady);
    const std::vector<FittedTone> fits = fit_candidates(*view, 0, candidates, shot.steady);
    for (const Tone& tone : tones) {
      if ((tone.family == ToneFamily::ping) != (view == &high)) continue;
      Tone reading = tone;
      double decay = 3.0 * std::numbers::ln10 / tone.ring_time_s;
      double mean_square = 0.0;
      const auto fitted = std::find_if(fits.begin(), fits.end(), [&](const FittedTone& fit) {
        return std::abs(fit.frequency_hz - tone.frequency_hz) <= kTolerance * tone.frequency_hz &&
               candidates[fit.candidate].excess_db[candidates[fit.candidate].gate] >= kOwnRing_db;
      });
      if (fitted != fits.end()) {
        decay = fitted->decay_per_s;
        mean_square = fitted->mean_square;
        reading.frequency_hz = fitted->frequency_hz;
      } else {
        const Reading read = best_reading(*view, tone.frequency_hz, decay);
        if (!(read.power > read.noise * std::pow(10.0, 0.1 * kHidden_db))) continue;
        mean_square = (read.power - read.noise) / gate_gain(view->spectra[read.gate].gate, decay, view->start_s);
      }
      reading.level_db = 10.0 * std::log10(mean_square / (kReferencePressure_pa * kReferencePressure_pa));
      reading.ring_time_s = 3.0 * std::numbers::ln10 / decay;
      reading.damping_ratio = decay / std::hypot(decay, 2.0 * std::numbers::pi * reading.frequency_hz);
      readings.push_back(reading);
    }
  }
  std::sort(readings.begin(), readings.end(),
            [](const Tone& a, const Tone& b) { return a.level_db > b.level_db; });
  return readings;
}

}  // namespace ringfall::shot
