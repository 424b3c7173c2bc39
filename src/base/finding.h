// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ringfall {

/// note: worth knowing. caution: the numbers in `voids` are doubtful. void_: they must not be used.
enum class Severity { note, caution, void_ };

/// What a finding can spoil. The names on paper (finding_name) are part of the machine-readable output.
enum class Quantity { levels, loudness, ring_down, tones, hum, ping, buzz, onset, impact, floor };

/// Who says it. clip: measuring the shot's clip again says it again, or withdraws it. recording: only the whole recording (or what
/// recorded it) showed it. person: somebody said it. What is not the clip's outlives a new measurement.
enum class Origin { clip, recording, person };

/// A remark about the data: for programs a code, for people a sentence that stands alone
/// (what was seen, what it spoils, what to do).
struct Finding {
  std::string code;
  Severity severity = Severity::note;
  std::vector<Quantity> voids;
  std::string sentence;
  Origin origin = Origin::clip;
};

/// "note", "caution" or "void".
std::string_view severity_name(Severity severity);

/// "levels", "loudness", "ring_down", ...
std::string_view quantity_name(Quantity quantity);

/// "clip", "recording" or "person".
std::string_view origin_name(Origin origin);

/// Does any finding of severity void_ name this quantity?
bool voided(const std::vector<Finding>& findings, Quantity quantity);

/// Is there a finding with this code?
bool has_finding(const std::vector<Finding>& findings, std::string_view code);

}  // namespace ringfall
