// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/finding.h"

#include <algorithm>

#include "base/check.h"

namespace ringfall {

std::string_view severity_name(Severity severity) {
  switch (severity) {
    case Severity::note: return "note";
    case Severity::caution: return "caution";
    case Severity::void_: return "void";
  }
  check(false, "unknown severity");
  return {};
}

std::string_view quantity_name(Quantity quantity) {
  switch (quantity) {
    case Quantity::levels: return "levels";
    case Quantity::loudness: return "loudness";
    case Quantity::ring_down: return "ring_down";
    case Quantity::tones: return "tones";
    case Quantity::hum: return "hum";
    case Quantity::ping: return "ping";
    case Quantity::buzz: return "buzz";
    case Quantity::onset: return "onset";
    case Quantity::impact: return "impact";
    case Quantity::floor: return "floor";
  }
  check(false, "unknown quantity");
  return {};
}

std::string_view origin_name(Origin origin) {
  switch (origin) {
    case Origin::clip: return "clip";
    case Origin::recording: return "recording";
    case Origin::person: return "person";
  }
  check(false, "unknown origin");
  return {};
}

bool voided(const std::vector<Finding>& findings, Quantity quantity) {
  return std::ranges::any_of(findings, [quantity](const Finding& finding) {
    return finding.severity == Severity::void_ &&
           std::ranges::find(finding.voids, quantity) != finding.voids.end();
  });
}

bool has_finding(const std::vector<Finding>& findings, std::string_view code) {
  return std::ranges::any_of(findings,
                             [code](const Finding& finding) { return finding.code == code; });
}

}  // namespace ringfall
