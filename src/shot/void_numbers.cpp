// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/measure.h"

#include <algorithm>

namespace ringfall::shot {
namespace {

/// Is the quantity spoilt by more than a tail in which a ring can hide? That takes the score only; the bound and the level of
/// the tail are made for it.
bool spoilt(const std::vector<Finding>& findings, Quantity quantity) {
  return std::ranges::any_of(findings, [quantity](const Finding& finding) {
    return finding.severity == Severity::void_ && finding.code != "tail_masked" && finding.code != "tail_too_short" &&
           std::ranges::find(finding.voids, quantity) != finding.voids.end();
  });
}

}  // namespace

void void_numbers(Shot& shot, const std::vector<Finding>& findings) {
  if (voided(findings, Quantity::levels)) {
    shot.levels.peak_db.reset();
    shot.levels.exposure_db.reset();
    shot.levels.exposure_z_db.reset();
    shot.levels.exposure_high_db.reset();
    shot.levels.fast_max_db.reset();
    for (Hit& hit : shot.hits) hit.level_db.reset();
  }
  if (voided(findings, Quantity::floor)) shot.levels.floor_db.reset();
  if (voided(findings, Quantity::loudness)) {
    shot.levels.loudness_sone.reset();
    shot.levels.sharpness_acum.reset();
  }
  if (voided(findings, Quantity::ring_down)) {
    shot.ring_down = RingDown{.early_s = {}, .late_s = {}, .early_z_s = {}, .late_z_s = {},
                              .range_db = {}, .to_20_db_s = {}, .bands = shot.ring_down.bands};
    for (BandDecay& band : shot.ring_down.bands) {
      band.late_s.reset();
      band.range_db.reset();
    }
  }
  if (voided(findings, Quantity::tones)) shot.tones.clear();
  // The parts stand or fall with their score: a comparison reads them as numbers of their own.
  if (voided(findings, Quantity::hum)) {
    shot.hum.reset();
    shot.hum_parts = {};
  }
  if (spoilt(findings, Quantity::hum)) {
    shot.hum_at_most.reset();
    shot.hum_tail_db.reset();
  }
  if (voided(findings, Quantity::ping)) {
    shot.ping.reset();
    shot.ping_parts = {};
  }
  if (spoilt(findings, Quantity::ping)) {
    shot.ping_at_most.reset();
    shot.ping_tail_db.reset();
  }
  if (voided(findings, Quantity::buzz)) shot.buzz.reset();
  if (voided(findings, Quantity::impact)) {
    shot.impact_lag_s.reset();
    shot.arrow_speed_m_s.reset();
  }
}

}  // namespace ringfall::shot
