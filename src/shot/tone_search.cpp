// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.h"
#include "base/units.h"

namespace ringfall::shot {
namespace {

/// Lines are looked for a little outside the families, so that a tone on the limit is not lost to its bin.
constexpr double kMargin = 0.03;
/// A second look needs this share of the first look's excess, in dB.
constexpr double kSecondLook = 0.45;
/// How far a gliding string may have moved between two gates.
constexpr double kGlide = 0.05;
constexpr double kNoiseFall_db = 5.0;

/// A line between two bins loses under 0.5 dB.
constexpr double kGatePadding = 1.2;

GateSpectrum pooled_spectrum(std::span<const TailSound::Band* const> bands, const Gate& gate) {
  GateSpectrum pooled;
  for (const TailSound::Band* band : bands) {
    GateSpectrum one = gate_spectrum<float>(band->pressure_pa, band->rate_hz, gate, band->begin_s, kGatePadding);
    if (bands.size() == 1) return one;
    for (double& p : one.power) p = std::log(std::max(p, 1e-300));
    if (pooled.power.empty()) {
      pooled = std::move(one);
    } else {
      const std::size_t n = std::min(pooled.power.size(), one.power.size());
      for (std::size_t k = 0; k < n; ++k) pooled.power[k] += one.power[k];
    }
  }
  const double share = 1.0 / static_cast<double>(bands.size());
  for (double& p : pooled.power) p = std::exp(p * share);
  return pooled;
}

void look_through(BandView& view, const std::vector<Gate>& gates) {
  for (const TailSound::Band* band : view.bands)
    if (band->pressure_pa.empty()) return;
  for (const TailSound::Band* band : view.bands)
    check(std::abs(band->rate_hz / view.bands.front()->rate_hz - 1.0) < 1e-3, "pooled shots have one sample rate");
  for (const Gate& gate : gates) view.spectra.push_back(pooled_spectrum(view.bands, gate));
}

double shortest_tail(std::span<const TailSound* const> shots, TailSound::Band TailSound::*band) {
  double end = std::numeric_limits<double>::infinity();
  for (const TailSound* shot : shots) end = std::min(end, (shot->*band).end_s);
  return shots.empty() ? 0.0 : end;
}

/// Highest power within +-reach of f.
double power_near(const GateSpectrum& spectrum, double f, double reach_hz) {
  const auto last = static_cast<double>(spectrum.power.size() - 1);
  const auto from = static_cast<std::size_t>(std::clamp(std::floor((f - reach_hz) / spectrum.bin_hz), 0.0, last));
  const auto to = static_cast<std::size_t>(std::clamp(std::ceil((f + reach_hz) / spectrum.bin_hz), 0.0, last));
  return *std::max_element(spectrum.power.begin() + static_cast<std::ptrdiff_t>(from),
                           spectrum.power.begin() + static_cast<std::ptrdiff_t>(to) + 1);
}

double middle_s(const Gate& gate) { return gate.begin_s + 0.5 * gate.length_s; }

/// Fastest fall of the noise around f from gate to gate, where the floor has not yet taken over; 0 when it does not fall by
/// kNoiseFall_db anywhere.
double noise_ring(const BandView& view, std::span<const double> noise) {
  double fastest = 0.0;
  for (std::size_t g = 0; g + 1 < view.spectra.size(); ++g) {
    std::size_t next = g + 1;
    while (next < view.spectra.size() && !independent(view.spectra[g].gate, view.spectra[next].gate)) ++next;
    if (next == view.spectra.size() || !(noise[g] > 0) || !(noise[next] > 0)) continue;
    const Gate &early = view.spectra[g].gate, &late = view.spectra[next].gate;
    const double fall_db = 10.0 * std::log10(noise[g] * early.length_s / (noise[next] * late.length_s));
    if (fall_db < kNoiseFall_db) continue;
    const double ring_s = 60.0 * (middle_s(late) - middle_s(early)) / fall_db;
    if (fastest == 0.0 || ring_s < fastest) fastest = ring_s;
  }
  return fastest;
}

Candidate candidate_at(const BandView& view, const SpectrumPeak& peak, std::size_t seen_in,
                       const std::vector<std::vector<double>>& lines_hz) {
  Candidate candidate;
  candidate.frequency_hz = peak.frequency_hz;
  for (std::size_t g = 0; g < view.spectra.size(); ++g) {
    const GateSpectrum& spectrum = view.spectra[g];
    const double around = noise_around(spectrum.power, spectrum.bin_hz, rules_for(view, g), peak.frequency_hz,
                                       lines_hz[g]);
    double power = peak.power;
    bool hidden = false;
    if (g != seen_in) {
      const double reach = 0.7 / spectrum.gate.length_s +
                           (g < seen_in ? std::min(kGlide * peak.frequency_hz, 1.5 / spectrum.gate.length_s) : 0.0);
      power = power_near(spectrum, peak.frequency_hz, reach);
      // Where another line's main lobe reaches in, this gate says nothing of the candidate.
      hidden = std::any_of(lines_hz[g].begin(), lines_hz[g].end(), [&](double line) {
        const double off = std::abs(line - peak.frequency_hz);
        return off > reach && off < reach + kGateLobe / spectrum.gate.length_s;
      });
    }
    candidate.noise.push_back(around);
    candidate.power.push_back(power);
    candidate.excess_db.push_back(around > 0 && !hidden ? 10.0 * std::log10(power / around) : 0.0);
  }
  const auto best = std::max_element(candidate.excess_db.begin(), candidate.excess_db.end());
  candidate.gate = static_cast<std::size_t>(best - candidate.excess_db.begin());
  const double second = kSecondLook * least_excess_db(view.bands.size());
  for (std::size_t g = 0; g < view.spectra.size(); ++g)
    if (candidate.excess_db[g] >= second && independent(view.spectra[g].gate, view.spectra[candidate.gate].gate))
      candidate.seen_again = true;
  candidate.noise_ring_s = noise_ring(view, candidate.noise);
  return candidate;
}

bool is_steady_line(const SpectrumPeak& peak, double gate_length_s, std::span<const TailSound::Steady> steady) {
  for (const auto& tone : steady) {
    const double mean_square = kReferencePressure_pa * kReferencePressure_pa * std::pow(10.0, 0.1 * tone.level_db);
    if (std::abs(tone.frequency_hz - peak.frequency_hz) < 1.5 / gate_length_s && peak.power < kOverSteady * mean_square)
      return true;
  }
  return false;
}

}  // namespace

BandView view_low(std::span<const TailSound* const> shots, const MeasureSettings& settings) {
  BandView view;
  for (const TailSound* shot : shots) view.bands.push_back(&shot->low);
  if (view.bands.empty()) return view;
  view.start_s = settings.hum_tail_start_s;
  view.tail_end_s = shortest_tail(shots, &TailSound::low);
  view.rules.low_hz = settings.hum_low_hz * (1.0 - kMargin);
  view.rules.high_hz = settings.ping_low_hz * (1.0 + 0.3 * kMargin);
  view.rules.noise_low_hz = 0.6 * settings.hum_low_hz;
  view.rules.noise_high_hz = view.bands.front()->usable_hz;
  view.rules.least_excess_db = least_excess_db(shots.size());
  look_through(view, low_gates(view.tail_end_s, settings));
  return view;
}

BandView view_high(std::span<const TailSound* const> shots, const MeasureSettings& settings) {
  BandView view;
  for (const TailSound* shot : shots) view.bands.push_back(&shot->high);
  if (view.bands.empty()) return view;
  const double usable_hz = view.bands.front()->usable_hz;
  view.start_s = settings.ping_tail_start_s;
  view.tail_end_s = shortest_tail(shots, &TailSound::high);
  view.rules.low_hz = settings.ping_low_hz * (1.0 - 0.3 * kMargin);
  view.rules.high_hz = std::min(settings.ping_high_hz * (1.0 + 0.3 * kMargin), usable_hz);
  view.rules.noise_low_hz = 0.75 * settings.ping_low_hz;
  view.rules.noise_high_hz = usable_hz;
  view.rules.least_excess_db = least_excess_db(shots.size());
  if (usable_hz > settings.ping_low_hz) look_through(view, high_gates(view.tail_end_s, settings));
  return view;
}

PeakRules rules_for(const BandView& view, std::size_t gate) {
  PeakRules rules = view.rules;
  rules.guard_hz = kGateLobe / view.spectra[gate].gate.length_s;
  rules.side_hz = 12.0 / view.spectra[gate].gate.length_s;
  return rules;
}

std::vector<Candidate> find_candidates(const BandView& view, std::span<const TailSound::Steady> steady) {
  std::vector<Candidate> found;
  std::vector<double> steady_hz;
  for (const auto& tone : steady) steady_hz.push_back(tone.frequency_hz);
  std::vector<std::vector<SpectrumPeak>> peaks;
  std::vector<std::vector<double>> lines_hz;  // of each gate: no noise for the others
  for (std::size_t g = 0; g < view.spectra.size(); ++g) {
    const GateSpectrum& spectrum = view.spectra[g];
    peaks.push_back(find_peaks(spectrum.power, spectrum.bin_hz, rules_for(view, g), steady_hz));
    lines_hz.push_back(steady_hz);
    for (const SpectrumPeak& peak : peaks.back()) lines_hz.back().push_back(peak.frequency_hz);
  }
  // The longest gate tells most apart; a shorter one adds what has died by then.
  for (std::size_t g = view.spectra.size(); g-- > 0;) {
    const GateSpectrum& spectrum = view.spectra[g];
    const double lobe_hz = kGateLobe / spectrum.gate.length_s;
    const std::size_t known = found.size();
    for (const SpectrumPeak& peak : peaks[g]) {
      if (is_steady_line(peak, spectrum.gate.length_s, steady)) continue;
      bool old = false;
      for (std::size_t i = 0; i < known; ++i)
        old |= std::abs(found[i].frequency_hz - peak.frequency_hz) < std::max(0.8 * lobe_hz, 1e-3);
      if (!old) found.push_back(candidate_at(view, peak, g, lines_hz));
    }
  }
  std::sort(found.begin(), found.end(),
            [](const Candidate& one, const Candidate& other) { return one.frequency_hz < other.frequency_hz; });
  return found;
}

double clean_power(const Candidate& candidate, std::size_t gate) {
  return candidate.power[gate] * (1.0 - std::pow(10.0, -0.1 * std::max(0.5, candidate.excess_db[gate])));
}

std::optional<double> decay_of(const BandView& view, const Candidate& candidate) {
  std::optional<std::size_t> second;
  for (std::size_t g = 0; g < view.spectra.size(); ++g) {
    const bool other = independent(view.spectra[g].gate, view.spectra[candidate.gate].gate);
    if (other && (!second || candidate.excess_db[g] > candidate.excess_db[*second])) second = g;
  }
  if (!second) return std::nullopt;
  const std::size_t early = std::min(candidate.gate, *second), late = std::max(candidate.gate, *second);
  return decay_between(view.spectra[early].gate, view.spectra[late].gate,
                       clean_power(candidate, late) / clean_power(candidate, early));
}

double faintest_mean_square(const BandView& view, double low_hz, double high_hz, double ring_time_s) {
  const double decay = 3.0 * std::numbers::ln10 / ring_time_s;
  double faintest = std::numeric_limits<double>::infinity();
  for (const GateSpectrum& spectrum : view.spectra) {
    const auto first = static_cast<std::size_t>(low_hz / spectrum.bin_hz) + 1;
    const auto end = std::min(spectrum.power.size(), static_cast<std::size_t>(high_hz / spectrum.bin_hz));
    if (end <= first) continue;
    std::vector<double> values(spectrum.power.begin() + static_cast<std::ptrdiff_t>(first),
                               spectrum.power.begin() + static_cast<std::ptrdiff_t>(end));
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    const double needed = *middle * std::pow(10.0, 0.1 * view.rules.least_excess_db);
    faintest = std::min(faintest, needed / gate_gain(spectrum.gate, decay, view.start_s));
  }
  return faintest;
}

std::optional<double> hidden_mean_square(const BandView& view, double low_hz, double high_hz, double ring_time_s,
                                         std::span<const double> tones_hz) {
  constexpr double kMargin = 2.0;
  constexpr double kOwnLobe = 0.8;  // as in find_candidates
  if (view.spectra.empty()) return std::nullopt;
  const double decay = 3.0 * std::numbers::ln10 / ring_time_s;
  // Steps of the finest gate's resolution; between two bins the higher counts.
  double step_hz = std::numeric_limits<double>::infinity();
  for (const GateSpectrum& spectrum : view.spectra) step_hz = std::min(step_hz, 1.0 / spectrum.gate.length_s);
  std::vector<double> gains;
  for (const GateSpectrum& spectrum : view.spectra) gains.push_back(gate_gain(spectrum.gate, decay, view.start_s));
  double most = 0.0;
  for (double f = low_hz; f <= high_hz; f += step_hz) {
    double allowed = std::numeric_limits<double>::infinity();
    for (std::size_t g = 0; g < view.spectra.size(); ++g) {
      const GateSpectrum& spectrum = view.spectra[g];
      const double lobe_hz = kOwnLobe * kGateLobe / spectrum.gate.length_s;
      if (std::ranges::any_of(tones_hz, [&](double tone_hz) { return std::abs(tone_hz - f) < lobe_hz; })) continue;
      const auto bin = static_cast<std::size_t>(f / spectrum.bin_hz);
      if (bin + 1 >= spectrum.power.size() || gains[g] <= 0.0) continue;
      allowed = std::min(allowed, static_cast<double>(std::max(spectrum.power[bin], spectrum.power[bin + 1])) / gains[g]);
    }
    if (std::isfinite(allowed)) most = std::max(most, allowed);
  }
  return kMargin * most;
}

}  // namespace ringfall::shot
