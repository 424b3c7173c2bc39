// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace ringfall::signal {

/// A frequency band with its slopes.
struct Band {
  double nominal_hz = 0.0;  ///< name of the band (ISO 266); 0 when it has none
  double low_hz = 0.0;      ///< lower -3 dB edge
  double high_hz = 0.0;     ///< upper -3 dB edge
  int bands_per_octave = 1; ///< how steep the slopes are: those of an octave (1) or third-octave (3) filter
};

/// The eight octave bands 63 Hz .. 8 kHz, edges 1000 G^(x -+ 1/2) Hz, G = 10^(3/10), x = -4 .. 3 (IEC exact).
/// Source: IEC 61260-1:2014 5.2 to 5.5, ISO 266. Tested: signal.Bands.*
std::span<const Band> octave_bands();

/// The octave band of index x (0: 1 kHz), x = -6 .. 4; and the third-octave band of index x (0: 1 kHz), -20 .. 13.
Band octave_band(int x);
Band third_octave_band(int x);

/// 2 kHz .. 16 kHz with third-octave slopes: the part of a shot that animals hear better than people do.
Band high_band();

/// Attenuation of the band in dB, >= 0. With x = distance beyond the nearer edge in bands plus 1/2 (so that x is the
/// distance from the middle of an octave or third-octave band): 48.16 x^4 dB, which is 3.01 dB at an edge, 0.19 dB a
/// quarter band from the middle and 48 dB a whole band away. Meets class 1 of IEC 61260-1:2014 Table 1 for both
/// widths; smooth all over, so that as a zero-phase mask it rings no longer than a Butterworth band of order 3 and,
/// below -50 dB, less (docs/measures/ring_down.md#bands).
/// Source: shape own, docs/measures/levels.md; limits IEC 61260-1:2014 5.10. Tested: signal.Bands.*
double band_attenuation_db(const Band& band, double frequency_hz);

/// The frequencies where the attenuation reaches `attenuation_db` (> 0) below and above the band.
struct FrequencyRange {
  double low_hz = 0.0, high_hz = 0.0;
};
FrequencyRange band_reach(const Band& band, double attenuation_db);

}  // namespace ringfall::signal
