// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/tone_change.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

double shift_of(const ToneChange& change) {
  return change.setup->tone.frequency_hz / change.baseline->tone.frequency_hz - 1.0;
}

std::string most_changed_text(const ToneChange& most, const std::string& setup, const std::string& baseline) {
  const auto& before = most.baseline->tone;
  const auto& after = most.setup->tone;
  std::string place = frequency_text(before.frequency_hz);
  if (most.match != ToneMatch::same) {
    place += fmt::format(" (with '{}' {}, perhaps the same part)", setup, frequency_text(after.frequency_hz));
  }
  const double level_db = most.level_db ? most.level_db->difference : after.level_db - before.level_db;
  return fmt::format("{}: of the tones heard with both, the one at {} changed most against '{}': {} dB, ring time {} "
                     "instead of {}.",
                     setup, place, baseline, signed_number(level_db, 1), duration_text(after.ring_time_s),
                     duration_text(before.ring_time_s));
}

}  // namespace

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
    if (change.match == ToneMatch::gone) gone.push_back(frequency_text(change.frequency_hz()));
    if (change.match == ToneMatch::added) added.push_back(frequency_text(change.frequency_hz()));
    both = both || (change.baseline && change.setup);
  }
  std::string text;
  if (const ToneChange* most = compare::most_changed(changes)) {
    text = most_changed_text(*most, setup, baseline);
  } else if (both) {
    text = fmt::format("{}: no tone heard with both changed its level or ring time against '{}' by more than chance would.",
                       setup, baseline);
  } else if (!changes.empty()) {
    text = fmt::format("{}: no tone was found both here and with '{}'.", setup, baseline);
  }
  if (!gone.empty()) text += fmt::format(" Found with '{}' only: {}.", baseline, listed(gone));
  if (!added.empty()) text += fmt::format(" Found with '{}' only: {}.", setup, listed(added));
  return text;
}

}  // namespace ringfall::report
