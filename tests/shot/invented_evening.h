// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace ringfall::shot {

/// One shot of an invented evening, as it was put there.
struct TrueShot {
  double onset_s = 0.0;
  std::optional<double> impact_s;  ///< nullopt: not audible
  bool own = true;                 ///< false: a neighbour's
};

/// What an invented evening holds besides the archer's own shots.
struct EveningPlan {
  double sample_rate_hz = 48000.0;
  int shots = 12;
  bool clickers = false;
  bool neighbour = false;      ///< another archer 2-4 m farther: 6-15 dB fainter, duller, with room, its own impact
  int neighbours_a_shot = 1;
  double setup_step_db = 0.0;  ///< the second half of the shots is this much quieter: another set-up
  bool talk = false;           ///< babble with plosives, 12-25 dB below the shots' peak
  bool steps = false;          ///< footsteps, a door, things put down
  bool wind = false;           ///< gusts and rumble on the microphone, up to 10 dB below the shots
  bool impacts = true;
  bool ringing = false;        ///< long tones: the impact has to be heard over them
  double drift_db = 0.0;       ///< the floor rises by this much over the recording
  double floor_db = 45.0;      ///< white, re 20 uPa
  double full_scale_db = 120.0;
  double offset = 0.0;         ///< dc, full scale = 1
  double lead_s = 2.0;         ///< before the first shot
};

struct InventedEvening {
  std::vector<float> samples;
  double sample_rate_hz = 0.0;
  std::vector<TrueShot> truth;  ///< own and neighbour's, in time order
};

/// Makes the evening; equal seeds give equal samples. The distractors are models of our own, made apart from
/// src/shot/synthetic_shot.cpp.
InventedEvening make_evening(const EveningPlan& plan, std::uint64_t seed);

/// How a finder's answer agrees with the truth.
struct Agreement {
  int shots = 0;      ///< own shots that were there
  int missed = 0;
  int extra = 0;
  int extra_unnamed = 0;            ///< of these not named as doubtful (Selection::in_doubt)
  double worst_onset_s = 0.0;
  double mean_onset_s = 0.0;        ///< signed mean error
  int impacts = 0;                  ///< audible ones of the shots found
  int impacts_wrong = 0;            ///< reported, but more than 5 ms off or not audible at all
  int impacts_missed = 0;
  double worst_impact_s = 0.0;      ///< of those right
  void add(const Agreement& other);
};

}  // namespace ringfall::shot
