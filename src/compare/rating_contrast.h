// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/number_difference.h"
#include "compare/session.h"

namespace ringfall::compare {

/// Do ratings rank the set-ups as the numbers do? A question of its own beside rating_agreements, which asks shot by shot inside a set-up.
enum class Ranked {
  same_way,       ///< both are claimed to differ, and the same way (or as a better feel goes with less hum)
  opposite,       ///< both are, and the other way
  said_only,      ///< the ratings differ, the numbers are not told apart
  measured_only,  ///< the other way about
  open            ///< neither is
};

/// One kind of rating of one set-up against the baseline, beside the number it is about.
struct RatingContrast {
  std::string rating;              ///< "hum", "ping", "loud", "feel"
  std::string setup;
  NumberDifference said;           ///< compared like any number: blocks, wander, evenings; points of the rating
  NumberDifference measured;
  bool opposite_expected = false;  ///< feel against hum
  Ranked ranked = Ranked::open;
};

/// Hum with hum, ping with ping, loud with loudness, feel with hum; of those that have ratings of both set-ups. A block rated only as a whole is
/// one value. Definition: docs/measures/comparison.md#words. Tests: compare.RatingContrast.*
std::vector<RatingContrast> rating_contrasts(const Session& session, const std::string& baseline);

}  // namespace ringfall::compare
