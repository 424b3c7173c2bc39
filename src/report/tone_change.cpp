// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/tone_change.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/units.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

double frequency_of(const ToneChange& change) {
  return change.baseline ? change.baseline->tone.frequency_hz : change.setup->tone.frequency_hz;
}

double shift_of(const ToneChange& change) {
  return change.setup->tone.frequency_hz / change.baseline->tone.frequency_hz - 1.0;
}

/// A tone's energy grows with its power and with its ring time.
double energy_change_db(const ToneChange& change) {
  const auto& before = change.baseline->tone;
  const auto& after = change.setup->tone;
  return after.level_db - before.level_db + power_to_db(after.ring_time_s / before.ring_time_s);
}

struct Pair {
  std::size_t first;
  std::size_t second;
  double distance;
};

std::vector<Pair> near_pairs(std::span<const SetUpTone> baseline, std::span<const SetUpTone> setup) {
  std::vector<Pair> pairs;
  for (std::size_t a = 0; a < baseline.size(); ++a) {
    for (std::size_t b = 0; b < setup.size(); ++b) {
      const double distance = std::abs(setup[b].tone.frequency_hz / baseline[a].tone.frequency_hz - 1.0);
      if (distance <= kMovedTone) pairs.push_back({a, b, distance});
    }
  }
  std::ranges::stable_sort(pairs, {}, &Pair::distance);
  return pairs;
}

}  // namespace

std::vector<ToneChange> tone_changes(std::span<const SetUpTone> baseline, std::span<const SetUpTone> setup) {
  std::vector<ToneChange> changes;
  std::vector<bool> first_taken(baseline.size(), false);
  std::vector<bool> second_taken(setup.size(), false);
  for (const Pair& pair : near_pairs(baseline, setup)) {
    if (first_taken[pair.first] || second_taken[pair.second]) continue;
    first_taken[pair.first] = true;
    second_taken[pair.second] = true;
    const SetUpTone& before = baseline[pair.first];
    const SetUpTone& after = setup[pair.second];
    changes.push_back({pair.distance <= kSameTone ? ToneMatch::same : ToneMatch::perhaps_moved, before, after,
                       stats::welch_difference(before.levels_db, after.levels_db)});
  }
  for (std::size_t k = 0; k < baseline.size(); ++k) {
    if (!first_taken[k]) changes.push_back({ToneMatch::gone, baseline[k], std::nullopt, std::nullopt});
  }
  for (std::size_t k = 0; k < setup.size(); ++k) {
    if (!second_taken[k]) changes.push_back({ToneMatch::added, std::nullopt, setup[k], std::nullopt});
  }
  std::ranges::stable_sort(changes, {}, frequency_of);
  return changes;
}

std::string match_words(const ToneChange& change) {
  switch (change.match) {
    case ToneMatch::same: return "same tone";
    case ToneMatch::perhaps_moved:
      return fmt::format("perhaps the same, moved by {} %", signed_number(100.0 * shift_of(change), 1));
    case ToneMatch::gone: return "only with the baseline";
    case ToneMatch::added: return "only with this set-up";
  }
  return "";
}

std::string tone_sentence(const std::vector<ToneChange>& changes, const std::string& setup, const std::string& baseline) {
  const ToneChange* most = nullptr;
  bool both = false;
  std::vector<std::string> gone;
  std::vector<std::string> added;
  for (const ToneChange& change : changes) {
    if (change.match == ToneMatch::gone) gone.push_back(frequency_text(change.baseline->tone.frequency_hz));
    if (change.match == ToneMatch::added) added.push_back(frequency_text(change.setup->tone.frequency_hz));
    if (!change.baseline || !change.setup) continue;
    both = true;
    if (!change.level_db || change.level_db->interval.contains(0.0)) continue;
    if (!most || std::abs(energy_change_db(change)) > std::abs(energy_change_db(*most))) most = &change;
  }
  std::string text;
  if (most) {
    const auto& before = most->baseline->tone;
    const auto& after = most->setup->tone;
    const std::string place = most->match == ToneMatch::same
                                  ? frequency_text(before.frequency_hz)
                                  : fmt::format("{} (with '{}' {}, perhaps the same part)", frequency_text(before.frequency_hz),
                                                setup, frequency_text(after.frequency_hz));
    text = fmt::format("{}: of the tones heard with both, the one at {} changed most against '{}': {} dB, ring time {} "
                       "instead of {}.",
                       setup, place, baseline, signed_number(most->level_db->difference, 1),
                       duration_text(after.ring_time_s), duration_text(before.ring_time_s));
  } else if (both) {
    text = fmt::format("{}: no tone heard with both changed its level against '{}' by more than chance would.", setup, baseline);
  } else if (!changes.empty()) {
    text = fmt::format("{}: no tone was found both here and with '{}'.", setup, baseline);
  }
  if (!gone.empty()) text += fmt::format(" Found with '{}' only: {}.", baseline, listed(gone));
  if (!added.empty()) text += fmt::format(" Found with '{}' only: {}.", setup, listed(added));
  return text;
}

}  // namespace ringfall::report
