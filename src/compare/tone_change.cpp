// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/tone_change.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/units.h"
#include "compare/values.h"
#include "stats/block_spread.h"
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

/// The shots in which a tone hides, at the most they may hide; what can't be told is left out.
void add_hidden(const SetUpTone& tone, std::map<std::pair<std::size_t, std::size_t>, double>& values) {
  for (const ToneHidden& hidden : tone.hidden) {
    if (hidden.at_most_db) values[{hidden.block, hidden.shot}] = *hidden.at_most_db;
  }
}

std::optional<stats::Difference> change_of(const Session& session, const std::string& baseline, const std::string& setup,
                                           const SetUpTone& before, const SetUpTone& after, ReadingValue value, bool with_hidden, bool& assumed) {
  std::map<std::pair<std::size_t, std::size_t>, double> values;
  for (const SetUpTone* tone : {&before, &after}) {
    for (const ToneReading& reading : tone->readings) {
      if (const auto found = value(reading)) values[{reading.block, reading.shot}] = *found;
    }
  }
  for (const SetUpTone* tone : {&before, &after}) {
    if (with_hidden) add_hidden(*tone, values);
  }
  const auto read = [&](const SessionBlock& block, const SessionShot& entry) -> std::optional<double> {
    const auto place = std::pair{static_cast<std::size_t>(&block - session.blocks.data()),
                                 static_cast<std::size_t>(&entry - block.shots.data())};
    const auto found = values.find(place);
    return found == values.end() ? std::nullopt : std::optional(found->second);
  };
  const auto sessions = session_values(session, baseline, setup, read);
  std::vector<stats::Blocks> cells;
  for (const auto& own : sessions) {
    cells.push_back(own.first);
    cells.push_back(own.second);
  }
  const auto found = stats::difference_over_blocks(sessions, stats::spread_of_blocks(cells));
  if (!found) return std::nullopt;
  assumed = found->assumed;
  return found->difference;
}

/// The change of level, with what hides it.
void add_level(const Session& session, const std::string& baseline, const std::string& setup, const SetUpTone& before, const SetUpTone& after,
               ToneChange& change) {
  change.both_hide = !before.hidden.empty() && !after.hidden.empty();
  if (change.both_hide) return;
  change.level_at_least = !before.hidden.empty() || !after.hidden.empty();
  change.level_db = change_of(session, baseline, setup, before, after,
                              [](const ToneReading& reading) { return std::optional(reading.level_db); }, true, change.level_assumed);
  // What hides may be less still: only a change away from the hidden side is bounded.
  if (change.level_at_least && change.level_db && (change.level_db->difference < 0.0) != !after.hidden.empty()) {
    change.level_db.reset();
    change.both_hide = true;
  }
}

const SetUpTone* silent_at(const SetUpTones& tones, double frequency_hz) {
  const auto found = std::ranges::find_if(tones.silent, [&](const SetUpTone& tone) {
    return std::abs(tone.tone.frequency_hz / frequency_hz - 1.0) <= kSameTone;
  });
  return found == tones.silent.end() ? nullptr : &*found;
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

bool ToneChange::level_told() const { return level_db && !level_assumed && adjusted_p_level < kToneAlpha; }

bool ToneChange::ring_time_told() const { return ring_time_s && !ring_time_assumed && adjusted_p_ring_time < kToneAlpha; }

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
    add_level(session, baseline.setup, setup.setup, before, after, change);
    change.ring_time_s = change_of(session, baseline.setup, setup.setup, before, after,
                                   [](const ToneReading& reading) { return reading.ring_time_s; }, false, change.ring_time_assumed);
    changes.push_back(std::move(change));
  }
  for (std::size_t k = 0; k < baseline.tones.size(); ++k) {
    if (first_taken[k]) continue;
    changes.push_back({ToneMatch::gone, baseline.tones[k], std::nullopt, {}, {}});
    if (const auto* silent = silent_at(setup, baseline.tones[k].tone.frequency_hz)) {
      add_level(session, baseline.setup, setup.setup, baseline.tones[k], *silent, changes.back());
    }
  }
  for (std::size_t k = 0; k < setup.tones.size(); ++k) {
    if (second_taken[k]) continue;
    changes.push_back({ToneMatch::added, std::nullopt, setup.tones[k], {}, {}});
    if (const auto* silent = silent_at(baseline, setup.tones[k].tone.frequency_hz)) {
      add_level(session, baseline.setup, setup.setup, *silent, setup.tones[k], changes.back());
    }
  }
  std::ranges::stable_sort(changes, {}, [](const ToneChange& change) { return change.frequency_hz(); });
  share_error(changes);
  return changes;
}

const ToneChange* most_changed(const std::vector<ToneChange>& changes) {
  const ToneChange* most = nullptr;
  for (const ToneChange& change : changes) {
    if (!change.baseline || !change.setup || (!change.level_told() && !change.ring_time_told())) continue;
    if (!most || std::abs(change.energy_db()) > std::abs(most->energy_db())) most = &change;
  }
  return most;
}

const ToneChange* largest_level_change(const std::vector<ToneChange>& changes) {
  const ToneChange* largest = nullptr;
  for (const ToneChange& change : changes) {
    if (!change.level_db || !change.baseline || !change.setup) continue;
    if (!largest || std::abs(change.level_db->difference) > std::abs(largest->level_db->difference)) largest = &change;
  }
  return largest;
}

}  // namespace ringfall::compare
