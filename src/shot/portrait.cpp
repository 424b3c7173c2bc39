// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/portrait.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "shot/pressure_clip.h"
#include "shot/shot_levels.h"
#include "signal/stft.h"
#include "signal/window.h"

namespace ringfall::shot {
namespace {

constexpr double kPortraitBegin_s = -0.100;
constexpr double kPortraitEnd_s = 0.800;
constexpr double kLowFrame_s = 0.085;
constexpr double kWideFrame_s = 0.021;
constexpr double kLowPictureTop_hz = 1000.0;
constexpr double kWidePictureTop_hz = 10000.0;
constexpr double kHop_s = 0.004;
constexpr double kDarkest = 1e-30;  // Pa^2; keeps the logarithm finite in silence

Spectrogram spectrogram_of(const PressureClip& pressure, double frame_s, double top_hz, double offset_db) {
  const double rate_hz = pressure.sample_rate_hz();
  const double begin_s = std::max(kPortraitBegin_s - 0.5 * frame_s, pressure.begin_s());
  const auto frames = signal::short_time_spectra(
      pressure.between(begin_s, kPortraitEnd_s + 0.5 * frame_s), rate_hz, signal::WindowShape::hann,
      static_cast<std::size_t>(frame_s * rate_hz), static_cast<std::size_t>(std::lround(kHop_s * rate_hz)),
      signal::SpectrumScaling::mean_square);
  Spectrogram result;
  result.frames = frames.frames;
  result.bin_hz = frames.bin_hz;
  result.hop_s = frames.hop_s;
  result.first_frame_s = begin_s + frames.first_centre_s;
  result.bins = std::min(frames.bins, static_cast<std::size_t>(top_hz / frames.bin_hz) + 1);
  result.levels_db.resize(result.frames * result.bins);
  const double reference = kReferencePressure_pa * kReferencePressure_pa;
  for (std::size_t frame = 0; frame < result.frames; ++frame) {
    const auto powers = frames.frame(frame);
    for (std::size_t bin = 0; bin < result.bins; ++bin) {
      result.levels_db[bin * result.frames + frame] =
          static_cast<float>(power_to_db((powers[bin] + kDarkest) / reference) + offset_db);
    }
  }
  return result;
}

}  // namespace

Portrait portrait_of(const Clip& clip, const Scale& scale, const MeasureSettings& settings) {
  const PressureClip pressure(clip, scale);
  Portrait portrait;
  portrait.sample_rate_hz = clip.sample_rate_hz;
  portrait.undisturbed_s = undisturbed_s(clip, settings);
  const double offset_db = scale.printed_offset_db();

  portrait.wave_begin_s = std::max(kPortraitBegin_s, pressure.begin_s());
  const double gain = scale.pascal_per_unit();
  for (const double value : pressure.between(portrait.wave_begin_s, kPortraitEnd_s)) {
    portrait.wave.push_back(static_cast<float>(value / gain));
  }
  portrait.low = spectrogram_of(pressure, kLowFrame_s, kLowPictureTop_hz, offset_db);
  portrait.wide = spectrogram_of(pressure, kWideFrame_s, kWidePictureTop_hz, offset_db);

  const Floor floor = measure_floor(pressure, settings);
  auto ring_down = measure_ring_down(ShotSegment(pressure, portrait.undisturbed_s), floor, settings);
  portrait.decay_a = std::move(ring_down.a);
  portrait.decay_z = std::move(ring_down.z);

  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample) + clip.onset_fraction;
  portrait.tail = find_tones(cut_tail(pressure.all(), clip.sample_rate_hz, edge, portrait.undisturbed_s, settings),
                             settings).density;
  for (float& level_db : portrait.tail.density_db) level_db += static_cast<float>(offset_db);
  for (float& level_db : portrait.tail.noise_db) level_db += static_cast<float>(offset_db);
  return portrait;
}

}  // namespace ringfall::shot
