// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::shot {

/// A family's tail starts hum_tail_start_s after the edge for hum and mid, ping_tail_start_s for ping: the instant that
/// every Tone::level_db of the family is meant at.
double tail_start_s(ToneFamily family, const MeasureSettings& settings);

/// Family of a frequency: hum, ping, between them mid; nullopt outside all three.
std::optional<ToneFamily> family_of(double frequency_hz, const MeasureSettings& settings);

/// The part of one shot that tones are looked for in, reduced to what the search needs (about 45 kB), so that the tails of a
/// whole set-up can be kept and searched together.
struct TailSound {
  /// A band of the sound at a reduced rate, in Pa, from `begin_s` after the edge on.
  struct Band {
    std::vector<float> pressure_pa;
    double rate_hz = 0.0;
    double begin_s = 0.0;
    double end_s = 0.0;            ///< the tail stops here
    double usable_hz = 0.0;        ///< the band is flat up to here
  };
  /// A tone that sounded before the shot already: mains, fan, lamp.
  struct Steady {
    double frequency_hz = 0.0;
    double level_db = 0.0;  ///< rms, dB re 20 uPa
  };
  Band low;   ///< hum and mid
  Band high;  ///< ping
  std::vector<Steady> steady;  ///< ascending; empty also when the clip has less than 100 ms of floor
  double tail_end_s = 0.0;     ///< after the edge
};

/// Cuts the tail out of a shot.
/// In   pressure_pa     the clip in Pa, any length
///      sample_rate_hz  8000 .. 192000
///      edge_sample     index of the loud edge in pressure_pa, with its fraction
///      tail_end_s      where the clean tail stops, after the edge (impact less the guard, tail_limit_s, or the floor)
/// Bands are empty when the clip is too short for them. Cost: two transforms of the stretches' length.
TailSound cut_tail(std::span<const double> pressure_pa, double sample_rate_hz, double edge_sample,
                   double tail_end_s, const MeasureSettings& settings);

/// Mean-square density of the tail against frequency, for pictures: dB re 20 uPa^2/Hz.
struct TailDensity {
  std::vector<float> frequency_hz;  ///< ascending
  std::vector<float> density_db;
  std::vector<float> noise_db;      ///< what of it was taken for noise
};

/// The tones that ring in a tail, and how faint a tone could have been heard.
struct TailTones {
  std::vector<Tone> tones;       ///< strongest first; level_db re 20 uPa at tail_start_s of the family
  /// What was refused, though a tone may stand behind it: as strong and long as the gates allow. Not tones; they only say
  /// that silence is not proved.
  std::vector<Tone> doubtful;
  std::vector<double> steady_hz; ///< sounded before the shot already: removed, not counted; ascending
  /// Level at the start of the tail, dB re 20 uPa, that a tone ringing kFaintRing_s needed to be accepted (middle of the
  /// family's band); nullopt: the family was not listened to (tail too short, band missing).
  std::optional<double> faintest_hum_db;
  std::optional<double> faintest_ping_db;
  /// The strongest tones that could hide, one a family and ring time of kHiddenRings_s; level at the start of the family's tail.
  /// Not heard: they only bound what was missed. Empty: no part of the family's tail could be heard.
  std::vector<Tone> hidden;
  double tail_end_s = 0.0;       ///< of the tail listened to, after the edge
  TailDensity density;
};
/// From the shortest ring that a listener takes for one up to an undamped part's.
inline constexpr double kHiddenRings_s[] = {0.08, 0.11, 0.15, 0.2, 0.28, 0.4, 0.6, 1.0, 2.0};
inline constexpr double kFaintRing_s = 0.25;

/// Finds the tones in the tail of one shot, or in the pooled tails of all shots of a set-up (geometric mean of their
/// spectra): a tone is accepted when it stands above the noise of its critical band, stands there in independent frames,
/// does not rise, rings on when the noise around it has died, and was not there before the shot. It is then described by
/// a damped-sinusoid fit. Tones of a pooled search carry the mean level and ring time over the shots.
/// Accuracy, false alarms, limits: docs/measures/hum_ping.md.  Cost: about 1 ms for one 48 kHz shot with six tones.
/// Source: own; critical band ECMA-418-1:2024 eq. (1), see docs/measures/hum_ping.md.  Tests: tail_tones_test, ladder_test.
TailTones find_tones(const TailSound& shot, const MeasureSettings& settings);
TailTones find_tones(std::span<const TailSound> shots, const MeasureSettings& settings);

/// Reads given tones (of a pooled search) in one shot, each at its frequency +-0.6 %: its level and, when it stands well
/// above the noise, its own ring time. A tone that the shot's noise hides is left out.
std::vector<Tone> read_tones(const TailSound& shot, std::span<const Tone> tones,
                             const MeasureSettings& settings);

}  // namespace ringfall::shot
