// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness_bands.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "signal/resample.h"

namespace ringfall::signal {
namespace {

// Bands lie side by side in vectors of 16 bytes, which every x86-64 and ARM64 has: two in double precision, four in
// single. No wider ones, no fused multiply-add: results are the same on every machine.
template <class Real>
struct LanesOf;
template <>
struct LanesOf<double> {
  using Type = double __attribute__((vector_size(16)));
};
template <>
struct LanesOf<float> {
  using Type = float __attribute__((vector_size(16)));
};
template <class Real>
using Lanes = typename LanesOf<Real>::Type;
template <class Real>
constexpr std::size_t kLanes = 16 / sizeof(Real);

constexpr double kLoudnessRate_hz = 48000.0;
constexpr std::size_t kSamplesPerFrame = 24;
constexpr std::size_t kVectors = 2;  // side by side in one run, so that one's arithmetic hides the other's waiting
constexpr std::size_t kSingleFrom = 12;  // band of 400 Hz
constexpr std::size_t kBox = 4;          // samples whose squares are summed before smoothing
constexpr std::size_t kBoxesPerFrame = kSamplesPerFrame / kBox;
// Means of 4 and low-passes at 12 kHz are 3 samples quicker than low-passes at 48 kHz; boxes end that much earlier.
constexpr std::size_t kAhead = 3;
constexpr std::size_t kLead = kAhead + kBox - 1;

/// Pressure at 48 kHz: the span itself, or resampled into `room`.
std::span<const double> at_loudness_rate(std::span<const double> pressure_pa, double rate_hz,
                                         std::vector<double>& room) {
  check(rate_hz >= 8000.0 && rate_hz <= 384000.0, "the sample rate is 8 kHz to 384 kHz");
  if (rate_hz == kLoudnessRate_hz) return pressure_pa;
  room = resample(pressure_pa, rate_hz, kLoudnessRate_hz);
  return room;
}

/// The common numerator of all bands, (1 - z^-2)^3, led by kLead samples of silence. A floor is added that keeps filters
/// which ring out in silence away from denormal numbers; at the bands' outputs it is under 1e-17 Pa.
template <class Real>
std::vector<Real> common_numerator(std::span<const double> x) {
  constexpr double kFloor = sizeof(Real) == sizeof(float) ? 1e-18 : 1e-60;
  std::vector<Real> out(kLead + x.size(), static_cast<Real>(kFloor));
  const auto at = [&](std::size_t n, std::size_t back) { return n >= back ? x[n - back] : 0.0; };
  for (std::size_t n = 0; n < std::min<std::size_t>(6, x.size()); ++n)
    out[n + kLead] = static_cast<Real>(x[n] - 3.0 * at(n, 2) + 3.0 * at(n, 4) + kFloor);
  for (std::size_t n = 6; n < x.size(); ++n)
    out[n + kLead] = static_cast<Real>((x[n] - x[n - 6]) - 3.0 * (x[n - 2] - x[n - 4]) + kFloor);
  return out;
}

/// kVectors * kLanes<Real> neighbouring bands.
template <class Real>
struct Group {
  static constexpr std::size_t kBands = kVectors * kLanes<Real>;

  explicit Group(std::size_t first_band) : first(first_band) {
    for (std::size_t b = 0; b < kBands; ++b) {
      // A group may reach past the last band: those lanes stay silent.
      if (first + b >= kThirdOctaves) continue;
      const ThirdOctaveFilter& filter = kThirdOctaveFilters[first + b];
      const std::size_t v = b / kLanes<Real>, lane = b % kLanes<Real>;
      for (std::size_t s = 0; s < 3; ++s) {
        a1[s][v][lane] = static_cast<Real>(filter.sections[s].a1);
        a2[s][v][lane] = static_cast<Real>(filter.sections[s].a2);
      }
      const double centre_hz = 1000.0 * std::pow(10.0, (static_cast<double>(first + b) - 16.0) / 10.0);
      const double tau_s = 2.0 / (3.0 * std::min(centre_hz, 1000.0));
      const double forget = std::exp(-static_cast<double>(kBox) / (kLoudnessRate_hz * tau_s));
      smoothing[v][lane] = static_cast<Real>(forget);
      const double keep = 1.0 - forget;
      gain2[b] = filter.gain * filter.gain;
      smoothing_gain[b] = keep * keep * keep / static_cast<double>(kBox);
    }
  }

  std::size_t first;
  Lanes<Real> a1[3][kVectors]{}, a2[3][kVectors]{}, smoothing[kVectors]{};
  double gain2[kBands]{}, smoothing_gain[kBands]{};
};

/// The filters' memory.
template <class Real>
struct Memory {
  Lanes<Real> y1[3][kVectors]{}, y2[3][kVectors]{};
};

/// One sample into all bands of the group; adds the squared outputs to `sum`.
template <class Real>
[[gnu::always_inline]] inline void step(const Group<Real>& group, Real x, Memory<Real>& m, Lanes<Real>* sum) {
  for (std::size_t v = 0; v < kVectors; ++v) {
    Lanes<Real> y = x - group.a2[0][v] * m.y2[0][v] - group.a1[0][v] * m.y1[0][v];
    m.y2[0][v] = m.y1[0][v];
    m.y1[0][v] = y;
    for (std::size_t s = 1; s < 3; ++s) {
      y = y - group.a2[s][v] * m.y2[s][v] - group.a1[s][v] * m.y1[s][v];
      m.y2[s][v] = m.y1[s][v];
      m.y1[s][v] = y;
    }
    sum[v] += y * y;
  }
}

template <class Real>
void smoothed(std::span<const Real> x, std::size_t first_band, std::vector<BandPowers>& frames) {
  const Group<Real> group(first_band);
  const std::size_t bands = std::min(Group<Real>::kBands, kThirdOctaves - first_band);
  Memory<Real> memory;
  Lanes<Real> low_pass[3][kVectors]{};
  const Real* at = x.data();
  for (std::size_t frame = 0; frame < frames.size(); ++frame) {
    for (std::size_t box = 0; box < (frame == 0 ? 1 : kBoxesPerFrame); ++box) {
      Lanes<Real> sum[kVectors]{};
      for (std::size_t n = 0; n < kBox; ++n) step(group, at[n], memory, sum);
      at += kBox;
      for (std::size_t v = 0; v < kVectors; ++v) {
        low_pass[0][v] = group.smoothing[v] * low_pass[0][v] + sum[v];
        low_pass[1][v] = group.smoothing[v] * low_pass[1][v] + low_pass[0][v];
        low_pass[2][v] = group.smoothing[v] * low_pass[2][v] + low_pass[1][v];
      }
    }
    for (std::size_t b = 0; b < bands; ++b) {
      frames[frame][first_band + b] = group.gain2[b] * group.smoothing_gain[b] *
                                      static_cast<double>(low_pass[2][b / kLanes<Real>][b % kLanes<Real>]);
    }
  }
}

/// Mean square from sample `first` of x on.
template <class Real>
void mean(std::span<const Real> x, std::size_t first, std::size_t first_band, BandPowers& powers) {
  const Group<Real> group(first_band);
  const std::size_t bands = std::min(Group<Real>::kBands, kThirdOctaves - first_band);
  Memory<Real> memory;
  std::array<double, Group<Real>::kBands> total{};
  for (std::size_t n = 0; n < x.size();) {
    const bool counts = n >= first;
    const std::size_t end = std::min(x.size(), counts ? n + kSamplesPerFrame : first);
    Lanes<Real> sum[kVectors]{};
    for (; n < end; ++n) step(group, x[n], memory, sum);
    for (std::size_t b = 0; counts && b < bands; ++b)
      total[b] += static_cast<double>(sum[b / kLanes<Real>][b % kLanes<Real>]);
  }
  for (std::size_t b = 0; b < bands; ++b)
    powers[first_band + b] = group.gain2[b] * total[b] / static_cast<double>(x.size() - first);
}

}  // namespace

std::vector<BandPowers> smoothed_band_powers(std::span<const double> pressure_pa, double rate_hz) {
  std::vector<double> room;
  const std::span<const double> x = at_loudness_rate(pressure_pa, rate_hz, room);
  if (x.empty()) return {};
  std::vector<BandPowers> frames((x.size() - 1) / kSamplesPerFrame + 1);
  const auto low = common_numerator<double>(x);
  const auto high = common_numerator<float>(x);
  for (std::size_t b = 0; b < kSingleFrom; b += Group<double>::kBands) smoothed<double>(low, b, frames);
  for (std::size_t b = kSingleFrom; b < kThirdOctaves; b += Group<float>::kBands) smoothed<float>(high, b, frames);
  return frames;
}

std::optional<BandPowers> mean_band_powers(std::span<const double> pressure_pa, double rate_hz, double skip_s) {
  std::vector<double> room;
  const std::span<const double> x = at_loudness_rate(pressure_pa, rate_hz, room);
  const double skip = skip_s * kLoudnessRate_hz;
  if (!(skip < static_cast<double>(x.size()))) return std::nullopt;
  const std::size_t first = kLead + static_cast<std::size_t>(std::max(0.0, skip));
  const auto low = common_numerator<double>(x);
  const auto high = common_numerator<float>(x);
  BandPowers powers{};
  for (std::size_t b = 0; b < kSingleFrom; b += Group<double>::kBands) mean<double>(low, first, b, powers);
  for (std::size_t b = kSingleFrom; b < kThirdOctaves; b += Group<float>::kBands) mean<float>(high, first, b, powers);
  return powers;
}

}  // namespace ringfall::signal
