// SPDX-License-Identifier: GPL-3.0-or-later
#include "hard_ground/sounds.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "base/units.h"
#include "signal/fft.h"
#include "signal/segment_spectrum.h"

namespace ringfall::hard_ground {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

double pascal(double level_db) { return 2e-5 * std::pow(10.0, level_db / 20.0); }

/// Changes a wave by a gain over frequency.
template <typename Gain>
void shape(std::span<double> wave, double rate_hz, Gain gain) {
  const std::size_t length = signal::fast_length(wave.size() + 4096);
  std::vector<double> padded(length, 0.0);
  std::ranges::copy(wave, padded.begin());
  std::vector<std::complex<double>> bins(length / 2 + 1);
  signal::fft_real(padded, bins);
  for (std::size_t k = 0; k < bins.size(); ++k) bins[k] *= gain(static_cast<double>(k) * rate_hz / static_cast<double>(length));
  signal::ifft_real(bins, padded);
  std::copy_n(padded.begin(), wave.size(), wave.begin());
}

double rms(std::span<const double> wave) {
  double sum = 0.0;
  for (const double value : wave) sum += value * value;
  return std::sqrt(sum / static_cast<double>(wave.size()));
}

/// Two-pole resonance.
void resonate(std::vector<double>& wave, double rate_hz, double centre_hz, double width_hz) {
  const double r = std::exp(-std::numbers::pi * width_hz / rate_hz);
  const double a = 2.0 * r * std::cos(kTurn * centre_hz / rate_hz);
  double one = 0.0;
  double two = 0.0;
  for (double& value : wave) {
    const double out = value * (1.0 - r) + a * one - r * r * two;
    two = one;
    value = one = out;
  }
}

}  // namespace

double Dice::normal() {
  const double radius = std::sqrt(-2.0 * std::log(uniform()));
  return radius * std::cos(kTurn * uniform());
}

std::vector<double> room_response(const Point& room, const Point& source, const Point& microphone, double decay_s,
                                  double rate_hz) {
  constexpr double kSound_m_s = 343.0;
  const double volume = room.x * room.y * room.z;
  const double area = 2.0 * (room.x * room.y + room.y * room.z + room.x * room.z);
  // Eyring: T = 0.161 V / (-S ln(1 - a)); the pressure is reflected by sqrt(1 - a).
  const double log_kept = -0.161 * volume / (area * decay_s) / 2.0;
  const double length_s = decay_s * 1.1;
  std::vector<double> response(static_cast<std::size_t>(length_s * rate_hz) + 2, 0.0);
  const auto distance = [&](double x, double y, double z) {
    return std::sqrt((x - microphone.x) * (x - microphone.x) + (y - microphone.y) * (y - microphone.y) +
                     (z - microphone.z) * (z - microphone.z));
  };
  const double direct = distance(source.x, source.y, source.z);
  const double reach = length_s * kSound_m_s + direct;
  const auto most = [&](double side) { return static_cast<int>(std::ceil(reach / (2.0 * side))); };
  const auto place = [](double at, double side, int order, int mirror) {
    return (mirror ? -at : at) + 2.0 * side * order;
  };
  for (int i = -most(room.x); i <= most(room.x); ++i)
    for (int mi = 0; mi < 2; ++mi)
      for (int j = -most(room.y); j <= most(room.y); ++j)
        for (int mj = 0; mj < 2; ++mj)
          for (int k = -most(room.z); k <= most(room.z); ++k)
            for (int mk = 0; mk < 2; ++mk) {
              const double away = distance(place(source.x, room.x, i, mi), place(source.y, room.y, j, mj), place(source.z, room.z, k, mk));
              const double at = (away - direct) / kSound_m_s * rate_hz;
              if (at < 0.0 || at + 1.0 >= static_cast<double>(response.size())) continue;
              const int bounces = std::abs(2 * i - mi) + std::abs(2 * j - mj) + std::abs(2 * k - mk);
              response[static_cast<std::size_t>(at)] += direct / away * std::exp(log_kept * bounces);
            }
  return response;
}

std::vector<double> convolved(std::span<const double> wave, std::span<const double> response) {
  const std::size_t length = signal::fast_length(wave.size() + response.size());
  std::vector<double> a(length, 0.0);
  std::vector<double> b(length, 0.0);
  std::ranges::copy(wave, a.begin());
  std::ranges::copy(response, b.begin());
  std::vector<std::complex<double>> x(length / 2 + 1);
  std::vector<std::complex<double>> y(length / 2 + 1);
  signal::fft_real(a, x);
  signal::fft_real(b, y);
  for (std::size_t k = 0; k < x.size(); ++k) x[k] *= y[k];
  signal::ifft_real(x, a);
  a.resize(wave.size());
  return a;
}

std::vector<double> background(std::size_t length, double rate_hz, double level_db, double slope_db, Dice& dice) {
  std::vector<double> wave(length);
  for (double& value : wave) value = dice.normal();
  shape(wave, rate_hz, [slope_db](double hz) { return std::pow(10.0, -slope_db / 20.0 * std::log2(std::max(hz, 40.0) / 1000.0)); });
  const auto weighted = signal::SegmentSpectrum(wave, rate_hz).weighted(signal::FrequencyWeighting::a);
  const double gain = pascal(level_db) / rms(weighted);
  for (double& value : wave) value *= gain;
  return wave;
}

void add_talk(std::span<double> wave, double rate_hz, double begin_s, double level_db, Dice& dice) {
  const auto begin = static_cast<std::size_t>(begin_s * rate_hz);
  const double pitch_hz = dice.between(100.0, 220.0);
  std::vector<double> voice(static_cast<std::size_t>(0.45 * rate_hz), 0.0);
  double phase = 0.0;
  for (std::size_t n = 0; n < voice.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    phase += pitch_hz * (1.0 + 0.03 * std::sin(kTurn * 5.0 * t)) / rate_hz;
    if (phase >= 1.0) {
      phase -= 1.0;
      voice[n] = 1.0;
    }
    voice[n] += 0.02 * dice.normal();
  }
  auto out = voice;
  std::ranges::fill(out, 0.0);
  for (const double formant_hz : {dice.between(300.0, 800.0), dice.between(900.0, 2200.0), dice.between(2300.0, 3200.0)}) {
    auto part = voice;
    resonate(part, rate_hz, formant_hz, 90.0);
    for (std::size_t n = 0; n < out.size(); ++n) out[n] += part[n];
  }
  const double syllable_s = dice.between(0.13, 0.25);
  for (std::size_t n = 0; n < out.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    const double in = std::fmod(t, syllable_s) / syllable_s;
    out[n] *= std::sin(std::numbers::pi * in);
  }
  const double gain = pascal(level_db) / rms(out);
  for (std::size_t n = 0; n < out.size() && begin + n < wave.size(); ++n) wave[begin + n] += gain * out[n];
}

void add_rustle(std::span<double> wave, double rate_hz, double begin_s, double end_s, double level_db, Dice& dice) {
  const auto begin = static_cast<std::size_t>(std::max(0.0, begin_s) * rate_hz);
  const auto end = std::min(wave.size(), static_cast<std::size_t>(end_s * rate_hz));
  if (end <= begin) return;
  std::vector<double> noise(end - begin);
  for (double& value : noise) value = dice.normal();
  shape(noise, rate_hz, [](double hz) { return hz > 600.0 && hz < 7000.0 ? 1.0 : 0.0; });
  double strokes_s = 0.0;
  double height = 1.0;
  double length_s = 0.1;
  for (std::size_t n = 0; n < noise.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz;
    if (t > strokes_s + length_s) {
      strokes_s = t;
      length_s = dice.between(0.04, 0.2);
      height = dice.between(0.1, 1.5);
    }
    noise[n] *= height * std::sin(std::numbers::pi * (t - strokes_s) / length_s);
  }
  const double gain = pascal(level_db) / rms(noise);
  for (std::size_t n = 0; n < noise.size(); ++n) wave[begin + n] += gain * noise[n];
}

void ride_gain(std::span<double> wave, double rate_hz, double threshold_pa, double depth_db, double release_s) {
  const double follow = std::exp(-1.0 / (0.003 * rate_hz));
  const double attack = 1.0 - std::exp(-1.0 / (0.004 * rate_hz));
  const double release = 1.0 - std::exp(-1.0 / (release_s * rate_hz));
  double level = 0.0;
  double down_db = 0.0;
  for (double& value : wave) {
    level = std::max(std::abs(value), level * follow);
    const double wanted_db = std::clamp(20.0 * std::log10(std::max(level, 1e-9) / threshold_pa), 0.0, depth_db);
    down_db += (wanted_db > down_db ? attack : release) * (wanted_db - down_db);
    value *= std::pow(10.0, -down_db / 20.0);
  }
}

void limit(std::span<double> wave, double rate_hz, double ceiling_pa) {
  const double release = std::exp(-1.0 / (0.08 * rate_hz));
  const auto ahead = static_cast<std::size_t>(0.002 * rate_hz);
  std::vector<double> wanted(wave.size(), 1.0);
  for (std::size_t n = 0; n < wave.size(); ++n) {
    if (std::abs(wave[n]) <= ceiling_pa) continue;
    const double gain = ceiling_pa / std::abs(wave[n]);
    for (std::size_t m = n - std::min(n, ahead); m <= n; ++m) wanted[m] = std::min(wanted[m], gain);
  }
  double gain = 1.0;
  for (std::size_t n = 0; n < wave.size(); ++n) {
    gain = std::min(wanted[n], 1.0 - (1.0 - gain) * release);
    wave[n] *= gain;
  }
}

void code_with_losses(std::span<double> wave, double rate_hz) {
  constexpr std::size_t kBlock = 1024;
  std::vector<double> out(wave.size() + kBlock, 0.0);
  std::vector<double> piece(kBlock);
  std::vector<std::complex<double>> bins(kBlock / 2 + 1);
  const auto window = [](std::size_t n) { return std::sin(std::numbers::pi * (static_cast<double>(n) + 0.5) / kBlock); };
  for (std::size_t begin = 0; begin < wave.size(); begin += kBlock / 2) {
    for (std::size_t n = 0; n < kBlock; ++n) piece[n] = begin + n < wave.size() ? wave[begin + n] * window(n) : 0.0;
    signal::fft_real(piece, bins);
    for (std::size_t first = 0; first < bins.size();) {
      const std::size_t end = std::min(bins.size(), std::max(first + 2, static_cast<std::size_t>(static_cast<double>(first) * 1.26)));
      double power = 0.0;
      for (std::size_t k = first; k < end; ++k) power += std::norm(bins[k]);
      const double step = std::sqrt(power / static_cast<double>(end - first)) * 0.45;  // error -18 dB
      const bool kept = static_cast<double>(first) * rate_hz / kBlock < 16000.0;
      for (std::size_t k = first; k < end; ++k) {
        bins[k] = kept && step > 0.0 ? std::complex(step * std::round(bins[k].real() / step), step * std::round(bins[k].imag() / step)) : 0.0;
      }
      first = end;
    }
    signal::ifft_real(bins, piece);
    for (std::size_t n = 0; n < kBlock; ++n) out[begin + n < out.size() ? begin + n : out.size() - 1] += piece[n] * window(n);
  }
  std::copy_n(out.begin(), wave.size(), wave.begin());
}

void low_pass(std::span<double> wave, double rate_hz, double corner_hz) {
  shape(wave, rate_hz, [corner_hz](double hz) { return hz <= corner_hz ? 1.0 : std::pow(10.0, -30.0 * std::log2(hz / corner_hz)); });
}

void low_cut(std::span<double> wave, double rate_hz, double corner_hz) {
  // Second-order Butterworth, bilinear.
  const double k = std::tan(std::numbers::pi * corner_hz / rate_hz);
  const double norm = 1.0 / (1.0 + std::numbers::sqrt2 * k + k * k);
  const double a1 = 2.0 * (k * k - 1.0) * norm;
  const double a2 = (1.0 - std::numbers::sqrt2 * k + k * k) * norm;
  double x1 = 0.0, x2 = 0.0, y1 = 0.0, y2 = 0.0;
  for (double& value : wave) {
    const double y = norm * (value - 2.0 * x1 + x2) - a1 * y1 - a2 * y2;
    x2 = x1;
    x1 = value;
    y2 = y1;
    value = y1 = y;
  }
}

}  // namespace ringfall::hard_ground
