// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/synthetic_shot.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "base/units.h"

namespace ringfall::shot {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kDecay60 = 6.907755278982137;  // ln 1000: amplitude falls by 60 dB

double pressure_pa(double level_db) { return kReferencePressure_pa * db_to_amplitude(level_db); }

/// Normal numbers that are the same on every platform (std::normal_distribution is not).
class Noise {
 public:
  explicit Noise(std::uint64_t seed) : generator_(seed) {}

  double uniform() { return (static_cast<double>(generator_() >> 11) + 0.5) * 0x1.0p-53; }

  double operator()() {
    if (have_spare_) {
      have_spare_ = false;
      return spare_;
    }
    const double radius = std::sqrt(-2.0 * std::log(uniform()));
    const double angle = 2.0 * kPi * uniform();
    spare_ = radius * std::sin(angle);
    have_spare_ = true;
    return radius * std::cos(angle);
  }

 private:
  std::mt19937_64 generator_;
  double spare_ = 0.0;
  bool have_spare_ = false;
};

/// Two Butterworth sections in a row, high-pass and low-pass (bilinear), for shaping noise.
class NoiseBand {
 public:
  NoiseBand(double low_hz, double high_hz, double rate_hz) {
    high_ = section(std::tan(kPi * low_hz / rate_hz), true);
    low_ = section(std::tan(kPi * std::min(high_hz, 0.45 * rate_hz) / rate_hz), false);
  }
  double operator()(double input) { return run(low_, run(high_, input)); }

 private:
  struct Section {
    double b0, b1, b2, a1, a2;
    double s1 = 0.0, s2 = 0.0;
  };
  static Section section(double k, bool high_pass) {
    const double norm = 1.0 / (1.0 + std::numbers::sqrt2 * k + k * k);
    const double b0 = (high_pass ? 1.0 : k * k) * norm;
    return {b0, high_pass ? -2.0 * b0 : 2.0 * b0, b0, 2.0 * (k * k - 1.0) * norm,
            (1.0 - std::numbers::sqrt2 * k + k * k) * norm};
  }
  static double run(Section& s, double x) {
    const double y = s.b0 * x + s.s1;
    s.s1 = s.b1 * x - s.a1 * y + s.s2;
    s.s2 = s.b2 * x - s.a2 * y;
    return y;
  }
  Section high_{};
  Section low_{};
};

/// A stretch of the wave that one event is added to; time runs from the event's own start, sub-sample exact.
class Stretch {
 public:
  Stretch(std::span<double> wave, double rate_hz, double start_s, double length_s) : wave_(wave), rate_hz_(rate_hz) {
    start_ = start_s * rate_hz;
    const auto size = static_cast<double>(wave.size());
    begin_ = static_cast<std::size_t>(std::clamp(std::ceil(start_), 0.0, size));
    end_ = static_cast<std::size_t>(std::clamp(std::ceil(start_ + length_s * rate_hz), 0.0, size));
  }
  std::size_t size() const { return end_ > begin_ ? end_ - begin_ : 0; }
  double time_s(std::size_t k) const { return (static_cast<double>(begin_ + k) - start_) / rate_hz_; }
  void add(std::size_t k, double pressure) { wave_[begin_ + k] += pressure; }

 private:
  std::span<double> wave_;
  double rate_hz_;
  double start_;
  std::size_t begin_;
  std::size_t end_;
};

/// Band noise of unit rms; the filter has settled before its first value.
std::vector<double> band_noise(std::size_t length, double low_hz, double high_hz, double rate_hz, Noise& noise) {
  NoiseBand band(low_hz, high_hz, rate_hz);
  const auto settle = static_cast<std::size_t>(0.05 * rate_hz);
  for (std::size_t n = 0; n < settle; ++n) band(noise());
  // Normalised over at least half a second, so that a short burst keeps its chance ups and downs.
  const std::size_t whole = std::max(length, static_cast<std::size_t>(0.5 * rate_hz));
  std::vector<double> values(whole);
  double energy = 0.0;
  for (double& value : values) {
    value = band(noise());
    energy += value * value;
  }
  const double scale = 1.0 / std::sqrt(energy / static_cast<double>(whole));
  values.resize(length);
  for (double& value : values) value *= scale;
  return values;
}

/// What a click is made of.
struct Click {
  double peak_pa;
  double rise_s;
  double fall_s;  ///< time constant of the amplitude
  double low_hz;
  double high_hz;
};

void add_click(std::span<double> wave, double rate_hz, double start_s, const Click& click, Noise& noise) {
  Stretch stretch(wave, rate_hz, start_s, 8.0 * click.fall_s + click.rise_s);
  auto values = band_noise(stretch.size(), click.low_hz, click.high_hz, rate_hz, noise);
  double highest = 1e-30;
  for (std::size_t k = 0; k < values.size(); ++k) {
    const double t = stretch.time_s(k);
    values[k] *= (1.0 - std::exp(-t / click.rise_s)) * std::exp(-t / click.fall_s);
    highest = std::max(highest, std::abs(values[k]));
  }
  for (std::size_t k = 0; k < values.size(); ++k) stretch.add(k, values[k] * click.peak_pa / highest);
}

void add_thump(std::span<double> wave, double rate_hz, double start_s, double level_db, double ring_time_s, Noise& noise) {
  Stretch stretch(wave, rate_hz, start_s, 2.0 * ring_time_s);
  const auto values = band_noise(stretch.size(), 60.0, 500.0, rate_hz, noise);
  for (std::size_t k = 0; k < values.size(); ++k) {
    const double t = stretch.time_s(k);
    stretch.add(k, pressure_pa(level_db) * values[k] * std::exp(-kDecay60 * t / ring_time_s));
  }
}

void add_tone(std::span<double> wave, double rate_hz, double start_s, const SyntheticTone& tone, double phase) {
  if (tone.frequency_hz >= 0.5 * rate_hz) return;
  Stretch stretch(wave, rate_hz, start_s, 2.5 * tone.ring_time_s);
  const double amplitude_pa = std::numbers::sqrt2 * pressure_pa(tone.level_db);
  for (std::size_t k = 0; k < stretch.size(); ++k) {
    const double t = stretch.time_s(k);
    stretch.add(k, amplitude_pa * std::exp(-kDecay60 * t / tone.ring_time_s) *
                       std::sin(2.0 * kPi * tone.frequency_hz * t + phase));
  }
}

/// String leaving the fingers: a faint scrape that ends shortly after its start.
void add_release(std::span<double> wave, double rate_hz, double start_s, double peak_pa, Noise& noise) {
  constexpr double kLength_s = 0.008;
  Stretch stretch(wave, rate_hz, start_s, kLength_s);
  const auto values = band_noise(stretch.size(), 1500.0, 6000.0, rate_hz, noise);
  for (std::size_t k = 0; k < values.size(); ++k) {
    const double share = stretch.time_s(k) / kLength_s;
    stretch.add(k, peak_pa / 3.0 * values[k] * std::sin(kPi * share) * std::sin(kPi * share));
  }
}

/// A dull thud, a slap, and the shaft shaking like a clamped rod.
void add_impact(std::span<double> wave, double rate_hz, double start_s, double peak_db, Noise& noise) {
  add_click(wave, rate_hz, start_s, {pressure_pa(peak_db), 0.0004, 0.012, 60.0, 1500.0}, noise);
  add_click(wave, rate_hz, start_s, {0.5 * pressure_pa(peak_db), 0.0002, 0.002, 500.0, 5000.0}, noise);
  add_tone(wave, rate_hz, start_s, {25.0, peak_db - 14.0, 0.15}, 0.0);
  add_tone(wave, rate_hz, start_s, {155.0, peak_db - 18.0, 0.10}, 0.0);
}

void add_buzz(std::span<double> wave, double rate_hz, double start_s, double rate_of_buzz_hz, double level_db, Noise& noise) {
  constexpr double kRing_s = 0.35;
  Stretch stretch(wave, rate_hz, start_s, kRing_s);
  const auto values = band_noise(stretch.size(), 1000.0, 8000.0, rate_hz, noise);
  for (std::size_t k = 0; k < values.size(); ++k) {
    const double t = stretch.time_s(k);
    // A loose part is hit once a cycle and rattles for a third of it.
    const double cycle = t * rate_of_buzz_hz - std::floor(t * rate_of_buzz_hz);
    const double chopped = std::exp(-cycle * 6.0);
    stretch.add(k, pressure_pa(level_db) * 2.0 * values[k] * chopped * std::exp(-kDecay60 * t / kRing_s));
  }
}

}  // namespace

void add_synthetic_shot(std::span<double> pressure_pa_wave, double sample_rate_hz, double onset_s,
                        const SyntheticShot& shot, std::uint64_t seed) {
  const auto wave = pressure_pa_wave;
  const double rate = sample_rate_hz;
  Noise noise(seed);
  const double edge_pa = pressure_pa(shot.edge_peak_db);
  const auto below = [edge_pa](double db) { return edge_pa * db_to_amplitude(-db); };

  add_click(wave, rate, onset_s, {edge_pa, 0.00012, 0.0025, 300.0, 9000.0}, noise);
  add_thump(wave, rate, onset_s, shot.thump_db, shot.thump_ring_time_s, noise);
  for (const SyntheticTone& tone : shot.tones) add_tone(wave, rate, onset_s, tone, 2.0 * kPi * noise.uniform());
  for (const double lag_s : shot.slap_lag_s) {
    add_click(wave, rate, onset_s + lag_s, {below(shot.slap_below_db), 0.0001, 0.0008, 1000.0, 8000.0}, noise);
  }
  if (shot.release_lag_s < 0.0) {
    add_release(wave, rate, onset_s + shot.release_lag_s, below(shot.release_below_db), noise);
  }
  if (shot.clicker_lag_s < 0.0) {
    add_click(wave, rate, onset_s + shot.clicker_lag_s,
              {below(shot.clicker_below_db), 0.0001, 0.0006, 2000.0, 8000.0}, noise);
  }
  if (shot.impact_lag_s > 0.0) {
    add_impact(wave, rate, onset_s + shot.impact_lag_s, shot.edge_peak_db - shot.impact_below_db, noise);
  }
  if (shot.buzz_rate_hz > 0.0) add_buzz(wave, rate, onset_s, shot.buzz_rate_hz, shot.buzz_db, noise);
}

void add_white_noise(std::span<double> pressure_pa_wave, double level_db, std::uint64_t seed) {
  Noise noise(seed);
  const double rms_pa = pressure_pa(level_db);
  for (double& value : pressure_pa_wave) value += rms_pa * noise();
}

std::vector<float> to_full_scale(std::span<const double> pressure_pa_wave, double full_scale_db_spl) {
  const double scale = 1.0 / pressure_pa(full_scale_db_spl);
  std::vector<float> samples;
  samples.reserve(pressure_pa_wave.size());
  for (const double value : pressure_pa_wave) samples.push_back(static_cast<float>(value * scale));
  return samples;
}

}  // namespace ringfall::shot
