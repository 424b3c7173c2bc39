// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/chain_judgement.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace ringfall::intake {
namespace {

// Common practice, no source; the first two from what the measuring needs (docs/measures/listening.md#chain-check).
constexpr double kClapOverFloor_db = 40.0;   // a late decay fit wants 15 dB of clean range below -5 dB, and the tail is 20 dB down
constexpr double kPingHighest_hz = 8000.0;   // the ping band's end
constexpr double kLevelsHighest_hz = 4000.0; // A-weighted levels lose more than 1 dB without what lies above
constexpr double kGainMoves_db = 3.0;
constexpr double kRateOff = 0.01;            // a tone's pitch is off by as much
constexpr double kLongRoom_s = 0.6;
constexpr double kFaint_db = -30.0;
constexpr double kWantedLow_db = -12.0;      // where a clap's or a shot's peak should come out
constexpr double kWantedHigh_db = -6.0;
constexpr double kHeadroom_db = 1.0;         // shots of one set-up differ by more
constexpr double kSilence_db = -119.0;       // below any converter's own noise
constexpr std::array kQuantities = {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::tones,
                                    Quantity::hum, Quantity::ping, Quantity::impact};

}  // namespace

void judge_chain(ChainCheck& check, double sample_rate_hz) {
  const auto add = [&](const char* code, Severity severity, std::vector<Quantity> voids, std::string sentence) {
    check.findings.push_back({code, severity, std::move(voids), std::move(sentence)});
  };
  using enum Quantity;
  if (!check.heard_clap) {
    add("no_clap", Severity::caution, {levels, loudness, ring_down, tones, hum, ping, impact},
        "No clap was heard: is the microphone on, its gain up, and the right one chosen?");
  }
  if (check.clap_peak_db && *check.clap_peak_db < kFaint_db) {
    add("too_faint", Severity::caution, {ring_down, tones, hum, ping},
        fmt::format("The clap's peak is only {:.0f} dB re full scale: turn the gain up until a clap reaches {:.0f} to {:.0f} dB.",
                    *check.clap_peak_db, kWantedLow_db, kWantedHigh_db));
  }
  if (check.clap_peak_db && check.floor_before_db && *check.clap_peak_db - *check.floor_before_db < kClapOverFloor_db) {
    add("floor_high", Severity::caution, {ring_down, tones, hum, ping},
        fmt::format("The room's noise is only {:.0f} dB below the clap's peak: find a quieter place or go nearer.",
                    *check.clap_peak_db - *check.floor_before_db));
  }
  if (check.floor_before_db && check.floor_after_db && std::abs(*check.floor_after_db - *check.floor_before_db) > kGainMoves_db) {
    add("gain_not_constant", Severity::void_, {levels, loudness, ring_down, hum, ping},
        fmt::format("The noise is {:+.1f} dB after the clap against before: something turns the gain. Switch gain control and noise "
                    "suppression off.", *check.floor_after_db - *check.floor_before_db));
  }
  if (check.highest_hz && *check.highest_hz < kPingHighest_hz) {
    std::vector<Quantity> spoilt = {loudness, ping};
    if (*check.highest_hz < kLevelsHighest_hz) spoilt.push_back(levels);
    add("band_limited", Severity::void_, std::move(spoilt),
        fmt::format("Nothing of the clap comes above {:.1f} kHz: a speech codec, a low sample rate or a covered microphone.",
                    *check.highest_hz / 1000.0));
  }
  if (check.clock_rate_hz && std::abs(*check.clock_rate_hz / sample_rate_hz - 1.0) > kRateOff) {
    add("rate_doubtful", Severity::void_, {ring_down, tones, hum, ping, impact},
        fmt::format("{:.0f} samples a second come, not {:.0f}: pitches and times would be off. Choose another rate or device.",
                    *check.clock_rate_hz, sample_rate_hz));
  }
  if (check.room_decay_s && *check.room_decay_s > kLongRoom_s) {
    add("room_long", Severity::caution, {ring_down, hum, ping},
        fmt::format("The room itself rings for {:.1f} s: what dies away is the room as much as the bow. Go outside, or closer.",
                    *check.room_decay_s));
  }
}

std::optional<Finding> judge_meter(const MeterReading& reading, std::optional<double> shot_peak_db) {
  using enum Quantity;
  const std::vector<Quantity> quiet_ones = {ring_down, tones, hum, ping};
  if (reading.clipped) {
    return Finding{"clipped", Severity::void_, {levels, loudness}, "Clipped: turn the gain down, then begin a new block."};
  }
  if (reading.rms_db <= kSilence_db) {
    return Finding{"no_sound", Severity::caution, {levels, loudness, ring_down, tones, hum, ping, impact},
                   "No sound at all: is the microphone on?"};
  }
  if (shot_peak_db && *shot_peak_db > -kHeadroom_db) {
    return Finding{"little_headroom", Severity::caution, {levels, loudness}, "Nearly clipping: turn the gain down a little."};
  }
  if (shot_peak_db && *shot_peak_db < kFaint_db) {
    return Finding{"too_faint", Severity::caution, quiet_ones, "Faint: turn the gain up, then begin a new block."};
  }
  if (shot_peak_db.value_or(kWantedHigh_db) - reading.floor_db < kClapOverFloor_db) {
    return Finding{"floor_high", Severity::caution, quiet_ones, "Loud between shots: wait for quiet, or go nearer."};
  }
  return std::nullopt;
}

std::vector<std::string> chain_verdicts(const ChainCheck& check) {
  std::vector<std::string> verdicts;
  for (const Quantity quantity : kQuantities) {
    const Finding* worst = nullptr;
    for (const Finding& finding : check.findings) {
      const bool speaks_of_it = std::find(finding.voids.begin(), finding.voids.end(), quantity) != finding.voids.end();
      if (speaks_of_it && finding.severity != Severity::note && (worst == nullptr || finding.severity > worst->severity)) worst = &finding;
    }
    const char* word = worst == nullptr ? "good" : worst->severity == Severity::void_ ? "not fit" : "doubtful";
    verdicts.push_back(fmt::format("{}: {}{}", quantity_name(quantity), word, worst == nullptr ? "" : fmt::format(" ({})", worst->code)));
  }
  return verdicts;
}

}  // namespace ringfall::intake
