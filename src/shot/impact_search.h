// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
#include <optional>
#include <span>
#include <vector>

#include "shot/impact_window.h"

namespace ringfall::shot {

/// A sudden sound after a shot that may be the arrow striking.
struct ImpactCandidate {
  double lag_s = 0.0;      ///< steepest rise, after the loud edge
  double level_db = 0.0;   ///< mean power of its first 6 ms (80 Hz - 3 kHz) over that of the shot's
  double rise_db = 0.0;    ///< over the loudest 6 ms of the 10-40 ms before
  bool shot_like = false;  ///< bright and short: rather another shot
};

/// Rises of 4 dB or more above everything in the recent past, in the sound itself (80 Hz - 3 kHz) or in its difference (dull
/// thud or slap; tones that beat never rise above their own recent past). At most 30 dB under the shot, 18 dB while the
/// shot's echoes still come in (60 ms). `after_edge` begins at the loud edge. In time order, 25 ms apart or more.
/// Cost: about 0.3 ms for 1.7 s at 48 kHz.  Source: own, docs/measures/shots.md.  Tests: shot.ImpactSearch.*
std::vector<ImpactCandidate> impact_candidates(std::span<const float> after_edge, double sample_rate_hz,
                                               const ImpactWindow& window);

/// Lags of one archer at one distance repeat within 5 % or 6 ms.
bool same_lag(double a_s, double b_s);

/// Remembers where earlier shots' candidates lay: one archer at one distance has one lag.
class ImpactHistory {
 public:
  /// Which candidate is the impact of a shot whose edge has this level; nullopt: none is, or none is clear. Then
  /// remembers the shot. The lag that the last shots of that level (+-5 dB) agree on comes first; where they agree and this
  /// shot has nothing there, nothing is taken, unless the last one lacked it, too, and both have something clear at one other
  /// lag: then the archer has walked, and that is the lag from now on. Without such shots the loudest clear rise is taken.
  std::optional<std::size_t> choose(const std::vector<ImpactCandidate>& candidates, double edge_db);

 private:
  struct Past {
    std::vector<double> lags_s;
    std::vector<double> clear_s;  ///< of these the clear ones
    double edge_db;
    bool lost;                    ///< the others agreed on a lag, and it had nothing there
  };
  std::deque<Past> past_;
};

}  // namespace ringfall::shot
