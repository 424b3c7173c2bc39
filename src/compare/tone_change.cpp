// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/tone_change.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/units.h"
#include "compare/values.h"
#include "stats/multiple.h"

namespace ringfall::compare {
namespace {

struct TonePair {
  std::size_t first;
  std::size_t second;
  double distance;
};

std::vector<TonePair> near_pairs(const std::vector<SetUpTone>& baseline, const std::vector<SetUpTone>& setup) {
  std::vector<TonePair> pairs;
  for (std::size_t a = 0; a < baseline.size(); ++a) {
    for (std::size_t b = 0; b < setup.size(); ++b) {
      const double distance = std::abs(setup[b].tone.frequency_hz / baseline[a].tone.frequency_hz - 1.0);
      if (distance <= kMovedTone) pairs.push_back({a, b, distance});
    }
  }
  std::ranges::stable_sort(pairs, {}, &TonePair::distance);
  return pairs;
}

using ReadingValue = std::optional<double> (*)(const ToneReading&);

std::optional<stats::Difference> change_of(const Session& session, const std::string& baseline, const std::string& setup,
                                           const SetUpTone& before, const SetUpTone& after, ReadingValue value, stats::Unit& unit) {
  std::map<std::pair<std::size_t, std::size_t>, double> values;
  for (const SetUpTone* tone : {&before, &after}) {
    for (const ToneReading& reading : tone->readings) {
      if (const auto found = value(reading)) values[{reading.block, reading.shot}] = *found;
    }
  }
  const auto read = [&](const SessionBlock& block, const SessionShot& entry) -> std::optional<double> {
    const auto place = std::pair{static_cast<std::size_t>(&block - session.blocks.data()),
                                 static_cast<std::size_t>(&entry - block.shots.data())};
    const auto found = values.find(place);
    return found == values.end() ? std::nullopt : std::optional(found->second);
  };
  const auto sessions = session_values(session, baseline, setup, read);
  unit = stats::unit_of(sessions);
  return stats::stratified_difference(sessions, unit);
}

/// A tone is one of many, and each has two numbers: they share the error they may make together.
void share_error(std::vector<ToneChange>& changes) {
  std::vector<double> p;
  std::vector<double*> places;
  for (ToneChange& change : changes) {
    if (change.level_db) {
      p.push_back(change.level_db->p);
      places.push_back(&change.adjusted_p_level);
    }
    if (change.ring_time_s) {
      p.push_back(change.ring_time_s->p);
      places.push_back(&change.adjusted_p_ring_time);
    }
  }
  const auto adjusted = stats::holm_adjusted(p);
  for (std::size_t k = 0; k < places.size(); ++k) *places[k] = adjusted[k];
}

}  // namespace

double ToneChange::energy_db() const {
  const double change_db = setup->tone.level_db - baseline->tone.level_db;
  return ring_time_s ? change_db + power_to_db(setup->tone.ring_time_s / baseline->tone.ring_time_s) : change_db;
}

std::vector<ToneChange> tone_changes(const Session& session, const SetUpTones& baseline, const SetUpTones& setup) {
  std::vector<ToneChange> changes;
  std::vector<bool> first_taken(baseline.tones.size(), false);
  std::vector<bool> second_taken(setup.tones.size(), false);
  for (const TonePair& pair : near_pairs(baseline.tones, setup.tones)) {
    if (first_taken[pair.first] || second_taken[pair.second]) continue;
    first_taken[pair.first] = true;
    second_taken[pair.second] = true;
    const SetUpTone& before = baseline.tones[pair.first];
    const SetUpTone& after = setup.tones[pair.second];
    ToneChange change{pair.distance <= kSameTone ? ToneMatch::same : ToneMatch::perhaps_moved, before, after, {}, {}};
    change.level_db = change_of(session, baseline.setup, setup.setup, before, after,
                                [](const ToneReading& reading) { return std::optional(reading.level_db); }, change.level_unit);
    change.ring_time_s = change_of(session, baseline.setup, setup.setup, before, after,
                                   [](const ToneReading& reading) { return reading.ring_time_s; }, change.ring_time_unit);
    changes.push_back(std::move(change));
  }
  for (std::size_t k = 0; k < baseline.tones.size(); ++k) {
    if (!first_taken[k]) changes.push_back({ToneMatch::gone, baseline.tones[k], std::nullopt, {}, {}});
  }
  for (std::size_t k = 0; k < setup.tones.size(); ++k) {
    if (!second_taken[k]) changes.push_back({ToneMatch::added, std::nullopt, setup.tones[k], {}, {}});
  }
  std::ranges::stable_sort(changes, {}, [](const ToneChange& change) { return change.frequency_hz(); });
  share_error(changes);
  return changes;
}

const ToneChange* most_changed(const std::vector<ToneChange>& changes) {
  const ToneChange* most = nullptr;
  for (const ToneChange& change : changes) {
    if (!change.baseline || !change.setup || std::min(change.adjusted_p_level, change.adjusted_p_ring_time) >= kToneAlpha) continue;
    if (!most || std::abs(change.energy_db()) > std::abs(most->energy_db())) most = &change;
  }
  return most;
}

const ToneChange* largest_level_change(const std::vector<ToneChange>& changes) {
  const ToneChange* largest = nullptr;
  for (const ToneChange& change : changes) {
    if (!change.level_db) continue;
    if (!largest || std::abs(change.level_db->difference) > std::abs(largest->level_db->difference)) largest = &change;
  }
  return largest;
}

}  // namespace ringfall::compare
