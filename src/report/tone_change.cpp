// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/tone_change.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/text.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

double shift_of(const ToneChange& change) {
  return change.setup->tone.frequency_hz / change.baseline->tone.frequency_hz - 1.0;
}

/// "-8.0 dB (95 % interval -9.0 to -7.0)"; a hint says so.
std::string difference_text(const stats::Difference& found, double adjusted_p, const char* unit, int decimals) {
  const bool hint = !found.interval.contains(0.0) && adjusted_p >= compare::kToneAlpha;
  return fmt::format("{} {} (95 % interval {}){}", signed_number(found.difference, decimals), unit,
                     interval_text(found.interval, decimals), hint ? ", a hint, may be chance" : "");
}

/// One of the two changes may be open.
std::string part_text(const char* part, const stats::Difference& found, double adjusted_p, const char* unit, int decimals) {
  return fmt::format("{} {}{}", part, difference_text(found, adjusted_p, unit, decimals),
                     found.interval.contains(0.0) ? ", not settled" : "");
}

std::string place_text(const ToneChange& change, const std::string& setup) {
  std::string place = frequency_text(change.baseline->tone.frequency_hz);
  if (change.match != ToneMatch::same) {
    place += fmt::format(" (with '{}' {}, perhaps the same part)", setup, frequency_text(change.setup->tone.frequency_hz));
  }
  return place;
}

std::string most_changed_text(const ToneChange& most, const std::string& setup, const std::string& baseline) {
  std::vector<std::string> changes;
  if (most.level_db) changes.push_back(part_text("level", *most.level_db, most.adjusted_p_level, "dB", 1));
  if (most.ring_time_s) changes.push_back(part_text("ring time", *most.ring_time_s, most.adjusted_p_ring_time, "s", 3));
  return fmt::format("{}: of the tones heard with both, the one at {} changed most against '{}': {}.", setup, place_text(most, setup),
                     baseline, fmt::join(changes, "; "));
}

/// None changed by more than chance would: that is not "none changed".
std::string none_settled_text(const std::vector<ToneChange>& changes, const std::string& setup, const std::string& baseline) {
  const std::string open = fmt::format("{}: whether a tone heard with both changed against '{}' is not settled", setup, baseline);
  const ToneChange* largest = compare::largest_level_change(changes);
  if (!largest) return open + ": too few shots show one.";
  return open + fmt::format("; the largest change of level is that at {}: {}.", place_text(*largest, setup),
                            difference_text(*largest->level_db, largest->adjusted_p_level, "dB", 1));
}

}  // namespace

std::string match_words(const ToneChange& change) {
  switch (change.match) {
    case ToneMatch::same: return "same tone";
    case ToneMatch::perhaps_moved:
      return fmt::format("perhaps the same, moved by {} %", signed_number(100.0 * shift_of(change), 1));
    case ToneMatch::gone: return change.level_told() ? "gone" : "only with the baseline, may be chance";
    case ToneMatch::added: return change.level_told() ? "new" : "only with this set-up, may be chance";
  }
  return "";
}

std::string family_word(shot::ToneFamily family) {
  switch (family) {
    case shot::ToneFamily::hum: return "hum";
    case shot::ToneFamily::mid: return "between";
    case shot::ToneFamily::ping: return "ping";
  }
  return "";
}

std::string tone_sentence(const std::vector<ToneChange>& changes, const std::string& setup, const std::string& baseline) {
  bool both = false;
  std::vector<std::string> gone;
  std::vector<std::string> added;
  for (const ToneChange& change : changes) {
    if (change.match == ToneMatch::gone && change.level_told()) gone.push_back(frequency_text(change.frequency_hz()));
    if (change.match == ToneMatch::added && change.level_told()) added.push_back(frequency_text(change.frequency_hz()));
    both = both || (change.baseline && change.setup);
  }
  std::string text;
  if (const ToneChange* most = compare::most_changed(changes)) {
    text = most_changed_text(*most, setup, baseline);
  } else if (both) {
    text = none_settled_text(changes, setup, baseline);
  } else if (!changes.empty()) {
    text = fmt::format("{}: no tone was found both here and with '{}'.", setup, baseline);
  }
  if (!gone.empty()) text += fmt::format(" Gone, heard with '{}' only: {}.", baseline, listed(gone));
  if (!added.empty()) text += fmt::format(" New, heard with '{}' only: {}.", setup, listed(added));
  return text;
}

}  // namespace ringfall::report
