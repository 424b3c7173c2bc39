// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/logbook_session.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/failure.h"
#include "base/text.h"
#include "logbook/earlier.h"

namespace ringfall::compare {
namespace {

Said said_of(const std::vector<logbook::Comment>& comments) {
  const logbook::Comment all = logbook::taken_together(comments);
  Said said{all.loud, all.hum, all.ping, all.feel, all.words};
  said.blind = !comments.empty() && std::ranges::all_of(comments, &logbook::Comment::blind);
  return said;
}

BlockFacts facts_of(const logbook::Conditions& conditions) {
  BlockFacts facts;
  facts.distance_m = conditions.distance_m;
  facts.temperature_c = conditions.temperature_c;
  facts.calibrated = conditions.full_scale_db_spl.has_value();
  facts.bow = conditions.bow;
  for (const std::string* words : {&conditions.microphone, &conditions.device, &conditions.chain}) {
    if (!words->empty()) facts.chain += (facts.chain.empty() ? "" : ", ") + *words;
  }
  return facts;
}

/// A set-up's name counts within its bow; with several bows in the comparison the bow's name goes before it.
std::string setup_name(const std::string& bow, const std::string& setup, bool several) {
  return several ? bow + ": " + setup : setup;
}

constexpr std::size_t kHiddenNamed = 8;
constexpr double kSameDrawWeight_n = 1.0;
constexpr double kSameBraceHeight_m = 0.002;

/// What of the bow itself changed from one session to the next, as it was dated; empty: nothing that was said of both.
std::vector<std::string> changed_on_bow(const logbook::Fittings& was, const logbook::Fittings& is) {
  std::vector<std::string> all;
  if (was.draw_weight_n && is.draw_weight_n && std::abs(*is.draw_weight_n - *was.draw_weight_n) > kSameDrawWeight_n) {
    all.push_back(fmt::format("draw weight ({:.0f} N, {:.0f} N)", *was.draw_weight_n, *is.draw_weight_n));
  }
  if (was.brace_height_m && is.brace_height_m && std::abs(*is.brace_height_m - *was.brace_height_m) > kSameBraceHeight_m) {
    all.push_back(fmt::format("brace height ({:.0f} mm, {:.0f} mm)", 1000.0 * *was.brace_height_m, 1000.0 * *is.brace_height_m));
  }
  if (!was.string.empty() && is.string != was.string) all.push_back(fmt::format("string ('{}', '{}')", was.string, is.string));
  if (!was.silencers.empty() && is.silencers != was.silencers) all.push_back(fmt::format("silencers ('{}', '{}')", was.silencers, is.silencers));
  return all;
}

/// Said at the first block of the later session: each session keeps a level of its own, but a set-up's effect may be another on another bow.
void add_bow_changes(const logbook::Logbook& logbook, Session& session) {
  const logbook::Conditions* before = nullptr;
  for (const auto& now : session.logbook.sessions) {
    const logbook::Conditions* last = before;
    before = &now;
    if (!last || last->bow != now.bow || last->started_at >= now.started_at) continue;
    const auto changed = changed_on_bow(fittings_at(logbook, now.bow, last->started_at), fittings_at(logbook, now.bow, now.started_at));
    const auto block = std::ranges::find(session.blocks, static_cast<int>(now.session), &SessionBlock::session);
    if (changed.empty() || block == session.blocks.end()) continue;
    block->findings.push_back({"bow_changed_between_sessions", Severity::note, {},
                               fmt::format("Between session {} and session {} the bow changed in {}: what a set-up does may differ with it.",
                                           last->session, now.session, fmt::join(changed, ", "))});
  }
}

}  // namespace

std::vector<std::int64_t> hidden_shots(const std::vector<logbook::KeptBlock>& blocks, const std::optional<std::string>& bow) {
  std::vector<std::int64_t> hidden;
  for (const auto& block : blocks) {
    if (!block.dropped.empty() || (bow && block.bow != *bow)) continue;
    for (const auto& shot : block.shots) {
      if (shot.dropped.empty() && !shot.analyser.empty() && logbook::numbers_hidden(block, shot)) hidden.push_back(shot.id);
    }
  }
  return hidden;
}

std::optional<std::string> hidden_numbers(const std::vector<logbook::KeptBlock>& blocks, const std::string& path,
                                           const std::optional<std::string>& bow) {
  const auto hidden = hidden_shots(blocks, bow);
  if (hidden.empty()) return std::nullopt;
  const std::size_t shots = hidden.size();
  std::string named;
  for (std::size_t k = 0; k < std::min(shots, kHiddenNamed); ++k) named += (named.empty() ? "" : ", ") + std::to_string(hidden[k]);
  std::set<std::int64_t> sessions;
  for (const auto& block : blocks) {
    const bool holds = std::ranges::any_of(block.shots, [&](const auto& shot) { return std::ranges::find(hidden, shot.id) != hidden.end(); });
    if (holds) sessions.insert(block.session);
  }
  if (shots > kHiddenNamed) named += fmt::format(" and {} more", shots - kHiddenNamed);
  const std::string typed = shell_word(path);
  return fmt::format("{} blind and no comment is in yet on {} ({}), so that their numbers stay hidden: comment on these shots or their "
                     "blocks (`ringfall comment {} {} WORDS`), drop them, or end the blind session (`ringfall session {} --change {} "
                     "--not-blind`{}), and ask again",
                     sessions.size() == 1 ? fmt::format("session {} is", *sessions.begin()) : "sessions are", counted(shots, "shot"), named,
                     typed, hidden.front(), typed, *sessions.begin(), sessions.size() == 1 ? "" : " and so on");
}

Session logbook_session(const logbook::Logbook& logbook, const std::optional<std::string>& bow, Hidden hidden) {
  Session session;
  std::map<std::int64_t, BlockFacts> facts;
  const auto blocks = logbook.blocks();
  if (hidden == Hidden::refused) {
    if (const auto sentence = hidden_numbers(blocks, logbook.path(), bow)) throw LogbookFailure(logbook.path() + ": " + *sentence);
  }
  std::set<std::string> bows;
  for (const auto& kept : blocks) {
    if (!bow || kept.bow == *bow) bows.insert(kept.bow);
  }
  const bool several = bows.size() > 1;
  for (const auto& conditions : logbook.sessions()) {
    facts[conditions.session] = facts_of(conditions);
    const bool shot_in = std::ranges::any_of(blocks, [&](const auto& block) { return block.session == conditions.session; });
    if (shot_in && bows.contains(conditions.bow)) session.logbook.sessions.push_back(conditions);
  }
  std::map<std::string, std::optional<double>> bows_arrow_kg;
  for (const auto& own : logbook.bows()) {
    if (!bows.contains(own.name)) continue;
    session.logbook.bows.push_back(own);
    bows_arrow_kg[own.name] = own.fittings.arrow_mass_kg;
  }
  for (const auto& kept : blocks) {
    if (!bows.contains(kept.bow)) continue;
    SessionBlock block;
    block.session = static_cast<int>(kept.session);
    block.file = kept.file;
    block.setup = setup_name(kept.bow, kept.setup, several);
    block.block = static_cast<int>(kept.number);
    block.note = kept.note;
    block.dropped = kept.dropped;
    block.findings = kept.findings;
    block.sample_rate_hz = kept.sample_rate_hz;
    block.channel = kept.channel;
    block.facts = facts[kept.session];
    block.said = said_of(kept.comments);
    for (const auto& shot : kept.shots) {
      SessionShot entry{shot.shot, said_of(shot.comments), shot.id, {}, shot.dropped};
      if (shot.analyser.empty() && !shot.unreadable) {
        block.left_out.push_back(fmt::format("Shot {} of '{}' is left out: it was never measured; remeasure the logbook.", shot.id,
                                             kept.setup));
      } else if (!shot.dropped.empty()) {
        block.left_out.push_back(fmt::format("Shot {} of '{}' is left out: {}.", shot.id, kept.setup, shot.dropped));
        block.dropped_shots.push_back(std::move(entry));
      } else {
        block.shots.push_back(std::move(entry));
      }
    }
    session.blocks.push_back(std::move(block));
  }
  add_bow_changes(logbook, session);
  for (const auto& setup : logbook.setups()) {
    if (!bows.contains(setup.bow)) continue;
    const std::string name = setup_name(setup.bow, setup.name, several);
    // What the set-up does not say is as on the bow.
    const auto arrow_kg = setup.fittings.arrow_mass_kg ? setup.fittings.arrow_mass_kg : bows_arrow_kg[setup.bow];
    const bool only_mass = !setup.fittings.parts.empty() && std::ranges::all_of(setup.fittings.parts, [](const logbook::Part& part) {
      return part.kind == logbook::Part::Kind::mass;
    });
    session.setup_facts.push_back({name, setup.changed, logbook::added_mass_kg(setup), arrow_kg, only_mass});
    session.logbook.setups.push_back(setup);
    session.logbook.setups.back().name = name;
  }
  return session;
}

std::optional<std::string> logbook_baseline(const logbook::Logbook& logbook, const Session& session) {
  const auto names = session.setups();
  for (const auto& setup : logbook.setups()) {
    if (!setup.baseline) continue;
    for (const bool several : {false, true}) {
      const auto name = setup_name(setup.bow, setup.name, several);
      if (std::ranges::find(names, name) != names.end()) return name;
    }
  }
  return std::nullopt;
}

}  // namespace ringfall::compare
