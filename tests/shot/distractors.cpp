// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/distractors.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/units.h"

namespace ringfall::shot {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;

double pascal(double level_db) { return kReferencePressure_pa * db_to_amplitude(level_db); }

/// A two-pole resonance, unit gain at its peak.
class Resonance {
 public:
  Resonance(double hz, double width_hz, double rate_hz) {
    const double radius = std::exp(-std::numbers::pi * width_hz / rate_hz);
    a1_ = -2.0 * radius * std::cos(kTwoPi * std::min(hz, 0.45 * rate_hz) / rate_hz);
    a2_ = radius * radius;
    gain_ = (1.0 - radius) * std::sqrt(1.0 + radius * radius - 2.0 * radius * std::cos(2.0 * kTwoPi * hz / rate_hz));
  }
  double operator()(double x) {
    const double y = gain_ * x - a1_ * y1_ - a2_ * y2_;
    y2_ = y1_;
    y1_ = y;
    return y;
  }

 private:
  double a1_, a2_, gain_, y1_ = 0.0, y2_ = 0.0;
};

/// Adds `sound` from at_s on, scaled to the given peak level.
void add_scaled(std::span<double> wave, double rate_hz, double at_s, const std::vector<double>& sound, double peak_db) {
  double highest = 1e-12;
  for (const double value : sound) highest = std::max(highest, std::abs(value));
  const auto begin = std::llround(at_s * rate_hz);
  for (std::size_t n = 0; n < sound.size(); ++n) {
    const auto at = begin + static_cast<std::int64_t>(n);
    if (at >= 0 && at < static_cast<std::int64_t>(wave.size())) {
      wave[static_cast<std::size_t>(at)] += sound[n] * pascal(peak_db) / highest;
    }
  }
}

bool clear_of(const std::vector<double>& moments_s, double from_s, double to_s) {
  return std::ranges::none_of(moments_s, [&](double s) { return s > from_s && s < to_s; });
}

/// A thud: noise through a low resonance, rising in rise_s and dying away.
std::vector<double> thud(double rate_hz, double hz, double width_hz, double rise_s, double fall_s, Dice& dice) {
  Resonance resonance(hz, width_hz, rate_hz);
  std::vector<double> sound(static_cast<std::size_t>((rise_s + 6.0 * fall_s) * rate_hz));
  for (std::size_t n = 0; n < sound.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    const double envelope = t < rise_s ? 0.5 - 0.5 * std::cos(std::numbers::pi * t / rise_s) : std::exp(-(t - rise_s) / fall_s);
    sound[n] = resonance(dice.normal(1.0)) * envelope;
  }
  return sound;
}

std::vector<double> syllable(double rate_hz, bool hissed, bool plosive, Dice& dice) {
  const double length_s = dice.between(0.08, 0.25);
  const double pitch_hz = dice.between(90.0, 230.0);
  Resonance first(dice.between(300.0, 800.0), 90.0, rate_hz);
  Resonance second(dice.between(900.0, 2200.0), 120.0, rate_hz);
  Resonance third(dice.between(2400.0, 3200.0), 180.0, rate_hz);
  Resonance hiss(std::min(dice.between(3500.0, 6000.0), 0.4 * rate_hz), 2000.0, rate_hz);
  const double rise_s = plosive ? 0.002 : dice.between(0.015, 0.05);
  std::vector<double> sound(static_cast<std::size_t>(length_s * rate_hz));
  double phase = 0.0;
  for (std::size_t n = 0; n < sound.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    phase += pitch_hz * (1.0 - 0.2 * t / length_s) / rate_hz;
    double source = 0.0;
    if (phase >= 1.0) {
      phase -= 1.0;
      source = 30.0;  // one glottal pulse
    }
    source += dice.normal(0.05);
    const double voiced = first(source) + 0.5 * second(source) + 0.25 * third(source);
    const double noise = hiss(dice.normal(1.0));
    const double envelope = std::min({1.0, t / rise_s, (length_s - t) / 0.03});
    const double burst = plosive ? 3.0 * noise * std::exp(-t / 0.006) : 0.0;
    sound[n] = (hissed ? 0.3 * noise : voiced) * envelope + 0.1 * burst;
  }
  return sound;
}

}  // namespace

double Dice::normal(double deviation) {
  const double radius = std::sqrt(-2.0 * std::log(unit()));
  return deviation * radius * std::cos(kTwoPi * unit());
}

void add_floor(std::span<double> wave, double rate_hz, double level_db, double drift_db, Dice& dice) {
  // White noise has the same density at every rate: the level is that up to 24 kHz.
  const double rms_pa = pascal(level_db) * std::sqrt(rate_hz / 48000.0);
  for (std::size_t n = 0; n < wave.size(); ++n) {
    const double share = static_cast<double>(n) / static_cast<double>(wave.size());
    wave[n] += dice.normal(rms_pa) * db_to_amplitude(drift_db * share);
  }
}

void add_gusts(std::span<double> wave, double rate_hz, double peak_db, Dice& dice) {
  std::vector<double> sound(wave.size());
  double slow = 0.0;
  double gust = 0.0;
  double wanted = 0.2;
  const double smoothing = 1.0 - std::exp(-kTwoPi * 60.0 / rate_hz);
  const double gusting = 1.0 - std::exp(-1.0 / (0.4 * rate_hz));
  for (std::size_t n = 0; n < sound.size(); ++n) {
    if (n % static_cast<std::size_t>(rate_hz) == 0) wanted = dice.between(0.02, 1.0);
    gust += gusting * (wanted - gust);
    slow += smoothing * (dice.normal(1.0) - slow);
    sound[n] = slow * gust * gust;
  }
  add_scaled(wave, rate_hz, 0.0, sound, peak_db);
  const double length_s = static_cast<double>(wave.size()) / rate_hz;
  for (double t = dice.between(0.5, 4.0); t < length_s; t += dice.between(2.0, 6.0)) {
    add_scaled(wave, rate_hz, t, thud(rate_hz, dice.between(20.0, 80.0), 30.0, 0.008, 0.06, dice), peak_db - dice.between(0.0, 12.0));
  }
}

void add_talk(std::span<double> wave, double rate_hz, double peak_db, const std::vector<double>& keep_clear_s, Dice& dice) {
  const double length_s = static_cast<double>(wave.size()) / rate_hz;
  for (double t = 0.3; t < length_s - 0.5; t += dice.between(0.12, 0.35)) {
    if (dice.whole(0, 15) == 0) t += dice.between(0.5, 2.0);
    const auto sound = syllable(rate_hz, dice.whole(0, 3) == 0, dice.whole(0, 2) == 0, dice);
    // People are still while someone looses; a word may end just before and start half a second after.
    if (clear_of(keep_clear_s, t - 0.5, t + 0.4)) add_scaled(wave, rate_hz, t, sound, peak_db - dice.between(0.0, 10.0));
  }
}

void add_steps(std::span<double> wave, double rate_hz, double shot_peak_db, const std::vector<double>& keep_clear_s, Dice& dice) {
  const double length_s = static_cast<double>(wave.size()) / rate_hz;
  double t = 0.5;
  while (t < length_s - 1.0) {
    const int kind = dice.whole(0, 9);
    if (kind < 8) {  // a few steps
      for (int k = 0; k < 5 && t < length_s - 1.0; ++k, t += dice.between(0.45, 0.65)) {
        if (!clear_of(keep_clear_s, t - 0.3, t + 0.3)) continue;
        add_scaled(wave, rate_hz, t, thud(rate_hz, dice.between(60.0, 180.0), 80.0, dice.between(0.006, 0.02), 0.03, dice),
                   shot_peak_db - dice.between(18.0, 30.0));
        add_scaled(wave, rate_hz, t + 0.01, thud(rate_hz, dice.between(700.0, 2500.0), 1500.0, 0.012, 0.02, dice),
                   shot_peak_db - dice.between(26.0, 36.0));
      }
    } else if (clear_of(keep_clear_s, t - 0.6, t + 0.6)) {
      if (kind == 8) {  // a door: boom, then the latch
        add_scaled(wave, rate_hz, t, thud(rate_hz, dice.between(50.0, 120.0), 60.0, 0.006, 0.09, dice),
                   shot_peak_db - dice.between(8.0, 16.0));
        add_scaled(wave, rate_hz, t + 0.02, thud(rate_hz, 1800.0, 1500.0, 0.001, 0.004, dice),
                   shot_peak_db - dice.between(18.0, 26.0));
      } else {  // something of wood or plastic put down
        add_scaled(wave, rate_hz, t, thud(rate_hz, dice.between(400.0, 1500.0), 300.0, 0.001, 0.012, dice),
                   shot_peak_db - dice.between(12.0, 25.0));
      }
    }
    t += dice.between(0.8, 3.0);
  }
}

void add_room(std::vector<double>& wave, double rate_hz, double reverberation_s, Dice& dice) {
  // Two echoes a millisecond on average, fainter by the reverberation, summed sparsely.
  const std::vector<double> dry = wave;
  const double decay = std::log(1000.0) / reverberation_s;
  for (int k = 0; k < 90; ++k) {
    const double t = 0.003 + 0.25 * reverberation_s * std::pow(dice.between(0.0, 1.0), 1.5);
    const auto delay = static_cast<std::size_t>(t * rate_hz);
    const double gain = 0.30 * std::exp(-decay * t) * (dice.whole(0, 1) == 0 ? -1.0 : 1.0);
    for (std::size_t n = delay; n < wave.size(); ++n) wave[n] += gain * dry[n - delay];
  }
}

}  // namespace ringfall::shot
