// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tail_tones.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/units.h"
#include "shot/tone_search.h"
#include "shot/tone_search_doubt.h"
#include "shot/tone_search_fit.h"
#include "shot/tone_search_pool.h"

namespace ringfall::shot {
namespace {

/// A line this little under the threshold may stand over it after another re-coding of the same sound; more would doubt
/// silence itself (noise alone shows such a line in 3 of 100 shots). Ping has more cells for noise to do so.
constexpr double kHumHysteresis_db = 2.5;
constexpr double kPingHysteresis_db = 1.0;

constexpr double kReferenceSquare = kReferencePressure_pa * kReferencePressure_pa;

double level_db(double mean_square) {
  return 10.0 / std::numbers::ln10 * std::log(std::max(mean_square, 1e-30) / kReferenceSquare);
}

void add_density(const BandView& view, double low_hz, double high_hz, TailDensity& density) {
  if (view.spectra.empty()) return;
  const std::size_t g = view.spectra.size() / 2;
  const GateSpectrum& spectrum = view.spectra[g];
  const double per_hz = spectrum.gate.length_s / kGateNoiseBand;
  const PeakRules rules = rules_for(view, g);
  double noise = 0.0;
  int until_next = 0;
  for (std::size_t k = 0; k < spectrum.power.size(); ++k) {
    const double f = static_cast<double>(k) * spectrum.bin_hz;
    if (f < low_hz || f >= high_hz) continue;
    if (until_next-- == 0) {  // the noise is smooth: every 16th bin will do
      noise = noise_around(spectrum.power, spectrum.bin_hz, rules, f);
      until_next = 15;
    }
    density.frequency_hz.push_back(static_cast<float>(f));
    density.density_db.push_back(static_cast<float>(level_db(spectrum.power[k] * per_hz)));
    density.noise_db.push_back(static_cast<float>(level_db(noise * per_hz)));
  }
}

Tone described(const FittedTone& fitted, ToneFamily family) {
  Tone tone;
  tone.frequency_hz = fitted.frequency_hz;
  tone.level_db = level_db(fitted.mean_square);
  tone.ring_time_s = 3.0 * std::numbers::ln10 / fitted.decay_per_s;
  tone.damping_ratio =
      fitted.decay_per_s / std::hypot(fitted.decay_per_s, 2.0 * std::numbers::pi * fitted.frequency_hz);
  tone.family = family;
  return tone;
}

std::vector<TailSound::Steady> steady_of(std::span<const TailSound* const> shots) {
  std::vector<TailSound::Steady> all;
  for (const TailSound* shot : shots) all.insert(all.end(), shot->steady.begin(), shot->steady.end());
  std::sort(all.begin(), all.end(),
            [](const auto& one, const auto& other) { return one.frequency_hz < other.frequency_hz; });
  // The same tone in several shots counts once, at its highest level.
  std::vector<TailSound::Steady> once;
  for (const auto& tone : all) {
    if (!once.empty() && tone.frequency_hz - once.back().frequency_hz < 1.0)
      once.back().level_db = std::max(once.back().level_db, tone.level_db);
    else
      once.push_back(tone);
  }
  return once;
}

/// Mean square that a tone of this ring time can have at `start_s` when all of the band's sound were the tone: of windows of 20 ms
/// the one that allows least. nullopt: the tail has no such window.
std::optional<double> whole_band_mean_square(const TailSound::Band& band, double start_s, double ring_time_s) {
  constexpr double kWindow_s = 0.020;
  const auto length = static_cast<std::size_t>(kWindow_s * band.rate_hz);
  if (length == 0) return std::nullopt;
  const double decay_per_s = 6.0 * std::numbers::ln10 / ring_time_s;
  // What a mean square of 1 at start_s leaves on average in a window that begins then.
  const double left = (1.0 - std::exp(-decay_per_s * kWindow_s)) / (decay_per_s * kWindow_s);
  std::optional<double> least;
  const double last_s = std::min(band.end_s, band.begin_s + static_cast<double>(band.pressure_pa.size()) / band.rate_hz);
  for (double from_s = start_s; from_s + kWindow_s <= last_s; from_s += 0.5 * kWindow_s) {
    const auto first = static_cast<std::size_t>(std::max(0.0, from_s - band.begin_s) * band.rate_hz);
    if (first + length > band.pressure_pa.size()) break;
    double sum = 0.0;
    for (std::size_t k = first; k < first + length; ++k) sum += static_cast<double>(band.pressure_pa[k]) * static_cast<double>(band.pressure_pa[k]);
    const double allowed = sum / static_cast<double>(length) / (left * std::exp(-decay_per_s * (from_s - start_s)));
    least = std::min(least.value_or(allowed), allowed);
  }
  return least;
}

/// `sound`: of one shot, for where no gate fits into the tail.
void add_hidden(const BandView& view, const TailSound::Band* sound, ToneFamily family, double low_hz, double high_hz,
                std::span<const FittedTone> tones, const MeasureSettings& settings, std::vector<Tone>& hidden) {
  std::vector<double> tones_hz;
  for (const FittedTone& tone : tones) tones_hz.push_back(tone.frequency_hz);
  for (const double ring_time_s : kHiddenRings_s) {
    auto most = hidden_mean_square(view, low_hz, high_hz, ring_time_s, tones_hz);
    if (!most && sound != nullptr) most = whole_band_mean_square(*sound, tail_start_s(family, settings), ring_time_s);
    if (most) hidden.push_back({0.0, level_db(*most), ring_time_s, 0.0, family});
  }
}

TailTones search(std::span<const TailSound* const> shots, const MeasureSettings& settings) {
  TailTones result;
  const std::vector<TailSound::Steady> steady = steady_of(shots);
  for (const auto& tone : steady) result.steady_hz.push_back(tone.frequency_hz);
  const BandView low = view_low(shots, settings);
  const BandView high = view_high(shots, settings);
  result.tail_end_s = std::max(low.tail_end_s, high.tail_end_s);
  for (const BandView* view : {&low, &high}) {
    const std::vector<Candidate> candidates = find_candidates(*view, steady);
    const std::vector<FittedTone> accepted = pooled_fits(*view, candidates, steady);
    // Pooled spectra are smoother, their threshold lower: so is what re-coding moves.
    const double hysteresis_db = (view == &high ? kPingHysteresis_db : kHumHysteresis_db) *
                                 least_excess_db(shots.size()) / least_excess_db(1);
    const auto keep = [&](const std::vector<FittedTone>& lines, std::vector<Tone>& kept) {
      for (const FittedTone& fitted : lines) {
        const auto family = family_of(fitted.frequency_hz, settings);
        // A tone on the border is described by the band that its family is searched in.
        if (!family || (*family == ToneFamily::ping) != (view == &high)) continue;
        kept.push_back(described(fitted, *family));
      }
    };
    const bool is_high = view == &high;
    const TailSound::Band* sound = shots.size() == 1 ? &(is_high ? shots.front()->high : shots.front()->low) : nullptr;
    add_hidden(*view, sound, is_high ? ToneFamily::ping : ToneFamily::hum, is_high ? settings.ping_low_hz : settings.hum_low_hz,
               is_high ? settings.ping_high_hz : settings.hum_high_hz, accepted, settings, result.hidden);
    keep(accepted, result.tones);
    keep(doubtful_lines(*view, steady, accepted, hysteresis_db), result.doubtful);
  }
  std::sort(result.tones.begin(), result.tones.end(),
            [](const Tone& one, const Tone& other) { return one.level_db > other.level_db; });
  if (!low.spectra.empty())
    result.faintest_hum_db =
        level_db(faintest_mean_square(low, settings.hum_low_hz, settings.hum_high_hz, kFaintRing_s));
  if (!high.spectra.empty())
    result.faintest_ping_db =
        level_db(faintest_mean_square(high, settings.ping_low_hz, high.rules.high_hz, kFaintRing_s));
  add_density(low, 20.0, settings.ping_low_hz, result.density);
  add_density(high, settings.ping_low_hz, high.rules.high_hz, result.density);
  return result;
}

}  // namespace

double tail_start_s(ToneFamily family, const MeasureSettings& settings) {
  return family == ToneFamily::ping ? settings.ping_tail_start_s : settings.hum_tail_start_s;
}

std::optional<ToneFamily> family_of(double frequency_hz, const MeasureSettings& settings) {
  if (frequency_hz < settings.hum_low_hz || frequency_hz > settings.ping_high_hz) return std::nullopt;
  if (frequency_hz <= settings.hum_high_hz) return ToneFamily::hum;
  return frequency_hz < settings.ping_low_hz ? ToneFamily::mid : ToneFamily::ping;
}

TailTones find_tones(const TailSound& shot, const MeasureSettings& settings) {
  const TailSound* one[] = {&shot};
  return search(one, settings);
}

TailTones find_tones(std::span<const TailSound> shots, const MeasureSettings& settings) {
  std::vector<const TailSound*> all;
  for (const TailSound& shot : shots) all.push_back(&shot);
  return search(all, settings);
}

}  // namespace ringfall::shot
