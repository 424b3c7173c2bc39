// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "shot/clip.h"
#include "shot/shot.h"

namespace ringfall::hard_ground {

/// One recording of a few shots on hard ground: place, company and recorder. Everything is synthetic and follows from the seed;
/// the truth of a shot is the same bow alone, in the open, without noise (ring times) or in the same room (levels).
struct Scene {
  std::uint64_t seed = 1;
  int shots = 6;
  double rate_hz = 48000.0;
  double lag_s = 0.38;             ///< edge to impact
  bool impact_known = true;        ///< false: it sounds, but nobody has told the clip
  double background_db = 32.0;     ///< A-weighted
  double slope_db = 4.0;           ///< the background falls by so much an octave
  double mains_db = 0.0;           ///< a line at 100 Hz and one at 150 Hz; 0: none
  bool fan = false;                ///< a line at 240 Hz
  double room_s = 0.0;             ///< 60 dB time by Eyring's formula; 0: in the open
  double spread_db = 1.0;          ///< of the archer, from shot to shot
  bool small_room = false;
  bool rustle = false;             ///< draw and lowering
  double talk_db = 0.0;            ///< a voice begins inside the tail; 0: none
  double second_shot_below_db = 0.0;  ///< somebody else's edge inside the tail; 0: none
  double gain_depth_db = 0.0;      ///< a phone's gain control; 0: none
  double gain_release_s = 0.5;
  double limiter_below_db = 0.0;   ///< the ceiling under the quietest peak; 0: none
  double peaks_at_db = 0.0;        ///< gain: the quietest peak re full scale, clipped when that is above; 0: the gain as it is
  bool lossy = false;              ///< coded with losses after all that
  double low_pass_hz = 0.0;        ///< steep cut; 0: none
  double low_cut_hz = 0.0;         ///< second-order cut; 0: none
  bool gate = false;               ///< the tail is cut to digital silence
  int bits = 24;
  double full_scale_db = 122.0;
};

struct SceneShot {
  shot::Clip clip;
  shot::Shot truth;
  double gain_db = 0.0;  ///< of the recorder: what its levels are higher by
};

std::vector<SceneShot> render(const Scene& scene);

/// What the program says of them, as for a file: each measured, then judged together.
struct Heard {
  std::vector<shot::Shot> shots;
  std::vector<Finding> recording;
};

Heard hear(const Scene& scene, const std::vector<SceneShot>& shots);

/// Does the recording, or at least half of its shots, carry this finding (not as a mere note)?
bool said(const Heard& heard, const std::string& code);

}  // namespace ringfall::hard_ground
