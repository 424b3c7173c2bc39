// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/chain_evidence.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>

#include "base/units.h"
#include "shot/frame_density.h"
#include "signal/fft.h"
#include "signal/median.h"

namespace ringfall::shot {
namespace {

using Span = std::span<const float>;

constexpr double kFloorFrame_s = 0.170;        // 6 Hz bins: the slope of the floor below 150 Hz can be seen
constexpr double kShotSpectrum_s = 0.100;
constexpr double kGainFrame_s = 0.040;
constexpr double kGainFrom_s = 0.040;     // the edge's own high octaves have died away
constexpr double kQuietShare = 0.16;      // of the frames before the shot: between strokes of rustle and words
constexpr std::size_t kOctavesUnderFloor = 3;
constexpr double kSilenced_db = -30.0;
constexpr double kNothing = 1e-20;        // power density of silence, keeps the logarithm finite

/// The part of the clip from `begin_s` to `end_s` after the edge, cut to what there is.
Span part(const Clip& clip, double begin_s, double end_s) {
  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample);
  const double size = static_cast<double>(clip.samples.size());
  const double begin = std::clamp(edge + begin_s * clip.sample_rate_hz, 0.0, size);
  const double end = std::clamp(edge + end_s * clip.sample_rate_hz, begin, size);
  return Span(clip.samples).subspan(static_cast<std::size_t>(begin),
                                    static_cast<std::size_t>(end) - static_cast<std::size_t>(begin));
}

/// Mean density of each frame between two frequencies; at least the nearest bin.
double mean_density(const std::vector<double>& bins, double bin_hz, double low_hz, double high_hz) {
  const auto last = static_cast<double>(bins.size() - 1);
  const auto first_bin = static_cast<std::size_t>(std::clamp(std::ceil(low_hz / bin_hz), 1.0, last));
  const auto end_bin = static_cast<std::size_t>(std::clamp(std::ceil(high_hz / bin_hz), 1.0, last));
  if (end_bin <= first_bin) {
    return bins[static_cast<std::size_t>(
        std::clamp(std::round(std::sqrt(low_hz * high_hz) / bin_hz), 1.0, last))];
  }
  double sum = 0.0;
  for (std::size_t k = first_bin; k < end_bin; ++k) sum += bins[k];
  return sum / static_cast<double>(end_bin - first_bin);
}

std::vector<float> fine_bands(const std::vector<double>& bins, double bin_hz) {
  std::vector<float> bands;
  const double half = std::exp2(0.5 / kFineBandsPerOctave);
  const double nyquist_hz = bin_hz * static_cast<double>(bins.size() - 1);
  for (std::size_t k = 0; fine_band_centre_hz(k) * half <= nyquist_hz; ++k) {
    const double centre = fine_band_centre_hz(k);
    bands.push_back(static_cast<float>(
        power_to_db(mean_density(bins, bin_hz, centre / half, centre * half) + kNothing)));
  }
  return bands;
}

/// Half-overlapping frames of a stretch: their densities, the stretch in order.
std::vector<std::vector<double>> frames_of(Span stretch, std::size_t frame, FrameDensity& density) {
  std::vector<std::vector<double>> frames;
  for (std::size_t n = 0; n + frame <= stretch.size(); n += frame / 2) {
    frames.push_back(density.of(stretch.subspan(n, frame)));
  }
  return frames;
}

/// Powers of the octaves 500 Hz .. 16 kHz that the rate has room for.
std::vector<double> octave_powers(const std::vector<double>& bins, double bin_hz) {
  std::vector<double> powers;
  const double nyquist_hz = bin_hz * static_cast<double>(bins.size() - 1);
  for (double centre = 500.0; centre * std::numbers::sqrt2 <= 1.05 * nyquist_hz && centre < 17000.0; centre *= 2.0) {
    powers.push_back(mean_density(bins, bin_hz, centre / std::numbers::sqrt2, centre * std::numbers::sqrt2));
  }
  return powers;
}

void add_gain_evidence(const Clip& clip, const MeasureSettings& settings, ChainEvidence& evidence) {
  const auto frame = signal::fast_length(static_cast<std::size_t>(kGainFrame_s * clip.sample_rate_hz));
  FrameDensity density(frame, clip.sample_rate_hz, Fades{});
  std::vector<std::vector<double>> before;  // by octave
  const auto quiet = frames_of(part(clip, settings.floor_begin_s, settings.floor_end_s), frame, density);
  if (quiet.size() < 5) return;
  for (const auto& bins : quiet) {
    const auto powers = octave_powers(bins, density.bin_hz());
    before.resize(powers.size());
    for (std::size_t k = 0; k < powers.size(); ++k) before[k].push_back(powers[k]);
  }
  if (before.size() < kOctavesUnderFloor) return;
  std::vector<double> floor;
  for (auto& column : before) {
    std::ranges::sort(column);
    floor.push_back(column[static_cast<std::size_t>(kQuietShare * static_cast<double>(column.size()))]);
  }
  for (const auto& bins : frames_of(part(clip, kGainFrom_s, 1e3), frame, density)) {
    auto over = octave_powers(bins, density.bin_hz());
    for (std::size_t k = 0; k < over.size(); ++k) over[k] = power_to_db((over[k] + kNothing) / (floor[k] + kNothing));
    std::ranges::sort(over);
    if (over[kOctavesUnderFloor - 1] < kSilenced_db) return;  // a gate: no gain control goes that far
    evidence.over_floor_db.push_back(static_cast<float>(over[kOctavesUnderFloor - 1]));
  }
}

void add_floor_evidence(const Clip& clip, const MeasureSettings& settings, ChainEvidence& evidence) {
  const auto frame = signal::fast_length(static_cast<std::size_t>(kFloorFrame_s * clip.sample_rate_hz));
  FrameDensity density(frame, clip.sample_rate_hz, Fades{});
  const double bin_hz = density.bin_hz();
  const auto before = frames_of(part(clip, settings.floor_begin_s, settings.floor_end_s), frame, density);
  if (before.empty()) return;
  const auto floor = median_density(before);
  evidence.floor_density_db = fine_bands(floor, bin_hz);
  evidence.floor_low_db = power_to_db(mean_density(floor, bin_hz, 20.0, 100.0) * 80.0 + kNothing);
}

}  // namespace

double fine_band_centre_hz(std::size_t k) {
  return kFineBandLowest_hz * std::exp2(static_cast<double>(k) / kFineBandsPerOctave);
}

ChainEvidence chain_evidence(const Clip& clip, const MeasureSettings& settings) {
  ChainEvidence evidence;
  const auto level_db = [](Span stretch) {
    double sum = 0.0;
    for (const float sample : stretch) sum += static_cast<double>(sample) * static_cast<double>(sample);
    return power_to_db(sum / static_cast<double>(std::max<std::size_t>(stretch.size(), 1)) + kNothing);
  };
  const Span loud = part(clip, -0.002, settings.shot_window_s);
  float peak = 0.0F;
  for (const float sample : loud) peak = std::max(peak, std::abs(sample));
  evidence.peak_db = amplitude_to_db(static_cast<double>(peak) + 1e-10);
  evidence.crest_db = evidence.peak_db - level_db(part(clip, 0.0, 0.005));
  const Span tail = part(clip, 0.040, 0.100);
  if (static_cast<double>(tail.size()) > 0.05 * clip.sample_rate_hz) evidence.tail_level_db = level_db(tail);
  const Span shot = part(clip, -0.005, kShotSpectrum_s);
  if (shot.size() >= 64) {
    // The edge comes 5 ms into the stretch and must not be faded away; the end must be, or it leaks.
    FrameDensity density(shot.size(), clip.sample_rate_hz, {0.03, 0.4});
    evidence.shot_density_db = fine_bands(density.of(shot), density.bin_hz());
  }
  add_floor_evidence(clip, settings, evidence);
  add_gain_evidence(clip, settings, evidence);
  return evidence;
}

}  // namespace ringfall::shot
