// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "signal/bands.h"
#include "signal/weighting.h"

namespace ringfall::signal {

/// Mean square over time of one band: squared analytic envelope / 2, so a sine of amplitude a reads a^2 / 2 at all
/// times, without the ripple at twice its frequency.
struct BandPower {
  std::vector<double> mean_square_pa2;  ///< value k is at time k / rate_hz from the segment's start
  double rate_hz = 0.0;                 ///< >= 1000 Hz
  double high_hz = 0.0;                 ///< the band's upper edge, or Nyquist when that is lower
  bool cut_at_nyquist = false;          ///< the recording ends below the band's upper edge

  /// The values from begin_s up to end_s (seconds from the segment's start, held to the segment).
  std::span<const double> between(double begin_s, double end_s) const;
};

/// One stretch of sound (a shot) and its spectrum, taken once; weightings and bands are read from it without
/// sampling warp, up to Nyquist. Its first and last `taper_s` are faded so that the cut ends make no click.
///
/// Give at least 50 ms of sound before what is measured (the A weighting of the low rumble that the cut begins with
/// has then died 40 dB) and at least 10 ms after it. Behind the segment 0.15 s of zeros are added, in which the
/// weightings' responses die by more than 90 dB before they would come round to its start.
/// Bands are zero-phase: what is loud smears to both sides by about 1 / bandwidth. To keep an arrow's impact
/// out of a band, end the segment before it; to keep the shot out of the floor, use a segment for the floor.
/// Cost at 48 kHz, 0.7 s: docs/measures/levels.md#cost.
/// Source: own, docs/measures/levels.md. Tested: signal.SegmentSpectrum.*, signal.Weighting.*, signal.Bands.*
class SegmentSpectrum {
 public:
  /// pressure_pa: Pa, not empty; sample_rate_hz 8000 .. 192000.
  SegmentSpectrum(std::span<const double> pressure_pa, double sample_rate_hz, double taper_s = 0.002);

  std::size_t size() const { return size_; }
  double sample_rate_hz() const { return sample_rate_hz_; }

  /// The weighted pressure in Pa, as long as the segment, causal as a sound level meter's (group delay under 0.1 ms
  /// above 500 Hz). Magnitude exact at all frequencies up to Nyquist.
  std::vector<double> weighted(FrequencyWeighting weighting) const;

  /// Mean square of the band over time; nullopt when the band's lower edge is not below Nyquist.
  std::optional<BandPower> band_power(const Band& band) const;

 private:
  std::size_t size_ = 0;
  std::size_t length_ = 0;  // of the transform
  double sample_rate_hz_ = 0.0;
  std::vector<std::complex<double>> bins_;
};

}  // namespace ringfall::signal
