// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "signal/loudness_slopes.h"

namespace ringfall::signal {

/// Loudness by Zwicker's method, ISO 532-1:2017, of sound pressure in Pa at the listener's place.

/// Loudness level [phon] of a loudness N >= 0 [sone]: 40 + 10 lb N from 1 sone on, below that 40 (N + 0.0005)^0.35, at
/// least 3 phon. Source: ISO 532-1:2017 5.8. Tested: signal.Loudness.*
double loudness_level_phon(double loudness_sone);

struct StationaryLoudness {
  double loudness_sone = 0.0;
  double loudness_level_phon = 3.0;
  SpecificLoudness specific_sone_per_bark{};
};

/// Loudness of a stationary sound from its 28 third-octave levels, 25 Hz .. 12.5 kHz, dB re 20 uPa.
/// Accuracy: the standard's arithmetic to rounding (it allows 5 % or 0.1 sone). Write -60 dB for "nothing".
/// Source: ISO 532-1:2017 5, method A. Tested: signal.Loudness.*
StationaryLoudness stationary_loudness(std::span<const double, kThirdOctaves> band_levels_db, SoundField field);

/// Third-octave levels [dB re 20 uPa] of a stationary sound, after its first skip_s (filters settle: 0.2 s in the
/// standard). nullopt: nothing is left after skip_s. Other rates than 48 kHz are resampled; what lies above half the
/// rate is missing then. Source: ISO 532-1:2017 5.2. Tested: signal.Loudness.*
std::optional<std::array<double, kThirdOctaves>> loudness_band_levels_db(std::span<const double> pressure_pa,
                                                                         double rate_hz, double skip_s = 0.2);

struct LoudnessTrace {
  std::vector<double> loudness_sone;
  double step_s = 0.002;
  /// N'(t, z) at the same times, without the last low-pass (so the standard has it); empty unless asked for.
  std::vector<SpecificLoudness> specific_sone_per_bark;
};

enum class KeepSpecific { no, yes };

/// Loudness over time, a value each 2 ms, the first at sample 0; the ear starts in silence there.
/// In   pressure [n] Pa, rate 8 kHz .. 384 kHz; other rates than 48 kHz are resampled, and what lies above half the
///      rate is missing. Out  ceil(n / 96) values at 48 kHz; empty for an empty span.
/// Accuracy: each value within 0.5 % (0.01 sone below 2 sone) of the standard's arithmetic, 2 % on the first
///   millisecond of a single sample's click; the maximum within 0.05 %. 16 kHz to 192 kHz agree within 0.5 %.
///   The standard allows 5 % or 0.1 sone, and +-2 ms.
/// Cost: see docs/measures/loudness.md; memory grows with n.
/// Source: ISO 532-1:2017 6. Tested: signal.Loudness.*, signal.LoudnessTwin.*
LoudnessTrace time_varying_loudness(std::span<const double> pressure_pa, double rate_hz, SoundField field,
                                    KeepSpecific keep = KeepSpecific::no);

}  // namespace ringfall::signal
