// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "compare/made_up_session.h"
#include "compare/season.h"

namespace ringfall::compare {

/// One session a value, ten days apart; three shots each, 0.2 dB apart round it, hum 3, ping 1, one tone at 100 Hz, 60 m/s.
struct MadeUpSeason {
  Session session;
  std::vector<Evening> evenings;

  explicit MadeUpSeason(const std::vector<double>& exposures) {
    for (std::size_t k = 0; k < exposures.size(); ++k) {
      const int number = static_cast<int>(k) + 1;
      session.blocks.push_back(exposure_block("bare", number, {exposures[k] - 0.2, exposures[k], exposures[k] + 0.2}, number));
      session.blocks.back().facts.bow = "recurve";
      for (auto& entry : session.blocks.back().shots) {
        entry.shot.hum = 3.0;
        entry.shot.ping = 1.0;
        entry.shot.arrow_speed_m_s = 60.0;
        entry.shot.tones.push_back({100.0, 60.0, 0.3, 0.01, shot::ToneFamily::hum});
      }
      evenings.push_back({number, "", 10.0 * static_cast<double>(k), std::nullopt});
    }
  }
  /// With a check tone a session.
  MadeUpSeason(const std::vector<double>& exposures, const std::vector<double>& check_tones) : MadeUpSeason(exposures) {
    for (std::size_t k = 0; k < check_tones.size(); ++k) evenings[k].check_tone_db = check_tones[k];
  }
  SetUpSeason read() const { return season_of(session, evenings).at(0); }
  std::vector<Trigger> triggers() const { return read().triggers; }
  bool has(TriggerKind kind) const {
    const auto all = triggers();
    return std::ranges::any_of(all, [kind](const Trigger& trigger) { return trigger.kind == kind; });
  }
  /// Does one of this kind tell to stop and inspect the bow?
  bool stops(TriggerKind kind) const {
    const auto all = triggers();
    return std::ranges::any_of(all, [kind](const Trigger& trigger) { return trigger.kind == kind && trigger.inspect; });
  }
  std::string sentence(TriggerKind kind) const {
    for (const Trigger& trigger : triggers()) {
      if (trigger.kind == kind) return trigger.sentence;
    }
    return {};
  }
  std::vector<SessionShot>& shots(std::size_t k) { return session.blocks[k].shots; }
};

}  // namespace ringfall::compare
