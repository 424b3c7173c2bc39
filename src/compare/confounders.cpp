// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/confounders.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/text.h"
#include "base/units.h"

namespace ringfall::compare {
namespace {

constexpr double kSameMass_kg = 0.005;
constexpr double kSameArrow_kg = 0.0001;
/// What a bow's riser side weighs, for the size of the effect only (own estimate).
constexpr double kBowMass_kg = 2.0;

constexpr double kSameDraw = 0.01;
constexpr double kSameBrace_m = 0.002;

/// What of a bow a set-up sets, what it does not say being as on the bow.
logbook::Fittings fittings_of(const Session& session, const std::string& setup) {
  const auto own = std::ranges::find(session.logbook.setups, setup, &logbook::SetUp::name);
  if (own == session.logbook.setups.end()) return {};
  logbook::Fittings fittings = own->fittings;
  const auto bow = std::ranges::find(session.logbook.bows, own->bow, &logbook::Bow::name);
  if (bow == session.logbook.bows.end()) return fittings;
  if (!fittings.draw_weight_n) fittings.draw_weight_n = bow->fittings.draw_weight_n;
  if (!fittings.brace_height_m) fittings.brace_height_m = bow->fittings.brace_height_m;
  if (fittings.string.empty()) fittings.string = bow->fittings.string;
  if (fittings.silencers.empty()) fittings.silencers = bow->fittings.silencers;
  return fittings;
}

std::string said_or_none(const std::string& words) { return words.empty() ? "none said" : "'" + words + "'"; }

/// Draw weight, brace height, string and silencers that are not the same on both.
std::vector<std::string> settings_that_differ(const logbook::Fittings& base, const logbook::Fittings& own) {
  std::vector<std::string> all;
  if (base.draw_weight_n && own.draw_weight_n && std::abs(*own.draw_weight_n / *base.draw_weight_n - 1.0) > kSameDraw) {
    all.push_back(fmt::format("draw weight ({:.0f} N, {:.0f} N)", *base.draw_weight_n, *own.draw_weight_n));
  }
  if (base.brace_height_m && own.brace_height_m && std::abs(*own.brace_height_m - *base.brace_height_m) > kSameBrace_m) {
    all.push_back(fmt::format("brace height ({:.0f} mm, {:.0f} mm)", 1000.0 * *base.brace_height_m, 1000.0 * *own.brace_height_m));
  }
  if (base.string != own.string) all.push_back(fmt::format("string ({}, {})", said_or_none(base.string), said_or_none(own.string)));
  if (base.silencers != own.silencers) {
    all.push_back(fmt::format("silencers ({}, {})", said_or_none(base.silencers), said_or_none(own.silencers)));
  }
  return all;
}

void judge_settings(const Session& session, const std::string& baseline, const std::string& setup, std::vector<Finding>& findings) {
  const auto differ = settings_that_differ(fittings_of(session, baseline), fittings_of(session, setup));
  if (differ.empty()) return;
  const bool several = differ.size() > 1;
  findings.push_back({several ? "several_settings_differ" : "setting_differs", several ? Severity::caution : Severity::note, {},
                      fmt::format("'{}' and '{}' differ in {}.{}", baseline, setup, fmt::join(differ, ", "),
                                  several ? " Which of them made a difference can't be told: change one thing at a time." : "")});
}

void append(std::vector<Finding>& all, std::vector<Finding> more) {
  for (Finding& finding : more) all.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> part_confounders(const Session& session, const std::string& baseline) {
  std::vector<Finding> findings;
  const SetUpFacts* base = session.facts_of(baseline);
  for (const std::string& setup : session.setups()) {
    const SetUpFacts* own = session.facts_of(setup);
    if (setup == baseline) continue;
    judge_settings(session, baseline, setup, findings);
    if (!own && !base) continue;
    // What nobody stated is taken for none: the set-up is the bow as it is.
    const double base_mass_kg = base ? base->added_mass_kg.value_or(0.0) : 0.0;
    const double more_kg = (own ? own->added_mass_kg.value_or(0.0) : 0.0) - base_mass_kg;
    if (std::abs(more_kg) > kSameMass_kg) {
      findings.push_back(
          {"added_mass_differs", Severity::caution, {},
           fmt::format("'{}' weighs {:.0f} g {} than '{}'{}: mass alone quietens a bow a little ({:.0f} g on {:g} kg about {:.1f} dB). "
                       "To tell damping from mass, shoot a third set-up with a dummy of equal mass in the same place.",
                       setup, 1000.0 * std::abs(more_kg), more_kg > 0.0 ? "more" : "less", baseline,
                       own && own->added_mass_kg ? "" : " (no added mass is stated for it)",
                       1000.0 * std::abs(more_kg), kBowMass_kg, amplitude_to_db(1.0 + std::abs(more_kg) / kBowMass_kg))});
    }
    if (base && own && base->arrow_mass_kg && own->arrow_mass_kg &&
        std::abs(*own->arrow_mass_kg - *base->arrow_mass_kg) > kSameArrow_kg) {
      findings.push_back({"arrow_differs", Severity::caution, {},
                          fmt::format("'{}' was shot with an arrow of {:.1f} g, '{}' with one of {:.1f} g: a lighter arrow leaves "
                                      "more energy in the bow and is louder by itself. Compare with one arrow.",
                                      setup, 1000.0 * *own->arrow_mass_kg, baseline, 1000.0 * *base->arrow_mass_kg)});
    }
  }
  return findings;
}

std::vector<Finding> confounders(const Session& session, const std::string& baseline) {
  std::vector<Finding> findings;
  for (const SessionBlock& block : session.blocks) {
    for (const std::string& sentence : block.left_out) findings.push_back({"shot_left_out", Severity::note, {}, sentence});
    // Words with the wrong shots are no confounder of the sound, but of what was said of it; a table's column that is left out is none either.
    std::ranges::copy_if(block.findings, std::back_inserter(findings), [](const Finding& finding) {
      return finding.code == "comments_unlike_shots" || finding.code == "column_without_numbers" ||
             finding.code == "bow_changed_between_sessions";
    });
    if (block.dropped.empty()) continue;
    findings.push_back({"block_dropped", Severity::note, {},
                        fmt::format("{} ('{}', {}) is left out: {}.", block.file, block.setup, counted(block.shots.size(), "shot"),
                                    block.dropped)});
  }
  append(findings, chain_confounders(session));
  append(findings, one_sided_findings(session, baseline));
  append(findings, part_confounders(session, baseline));
  append(findings, order_confounders(session, baseline));
  return findings;
}

}  // namespace ringfall::compare
