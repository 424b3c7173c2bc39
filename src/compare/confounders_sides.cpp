// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>

#include "base/text.h"
#include "compare/confounders.h"

namespace ringfall::compare {
namespace {

constexpr double kMost = 0.5;
constexpr double kHardly = 0.2;
constexpr std::size_t kFewestToTell = 3;  // shots

/// How many of a set-up's shots, and how many of its recordings, have a finding of one code.
struct Met {
  std::size_t shots = 0;
  std::size_t blocks = 0;
  std::string sentence;
};

struct SideSeen {
  std::size_t shots = 0;
  std::size_t blocks = 0;
  std::map<std::string, Met> codes;
};

SideSeen seen_of(const Session& session, const std::string& setup) {
  SideSeen seen;
  const auto meet = [&seen](const Finding& finding, std::size_t Met::*count) {
    if (finding.severity != Severity::caution || finding.code == "comments_unlike_shots") return;
    Met& met = seen.codes[finding.code];
    ++(met.*count);
    if (met.sentence.empty()) met.sentence = finding.sentence;
  };
  for (const SessionBlock* block : session.kept()) {
    if (block->setup != setup) continue;
    ++seen.blocks;
    for (const Finding& finding : block->findings) meet(finding, &Met::blocks);
    for (const SessionShot& entry : block->shots) {
      ++seen.shots;
      for (const Finding& finding : entry.shot.findings) meet(finding, &Met::shots);
    }
  }
  return seen;
}

double share(std::size_t part, std::size_t all) { return all == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(all); }

/// Of the shots where shots have it, else of the recordings.
std::string with_without(const SideSeen& side, const std::string& code, bool of_shots) {
  const auto found = side.codes.find(code);
  const Met met = found == side.codes.end() ? Met{} : found->second;
  return of_shots ? fmt::format("{} of {} shots", met.shots, side.shots) : fmt::format("{} of {}", met.blocks, counted(side.blocks, "recording"));
}

void hold(const std::string& setup, const SideSeen& own, const std::string& other_setup, const SideSeen& other, std::vector<Finding>& findings) {
  if (own.shots < kFewestToTell || other.shots < kFewestToTell) return;
  for (const auto& [code, met] : own.codes) {
    const auto beside = other.codes.find(code);
    const Met there = beside == other.codes.end() ? Met{} : beside->second;
    const bool by_shots = share(met.shots, own.shots) >= kMost && share(there.shots, other.shots) <= kHardly;
    const bool by_blocks = share(met.blocks, own.blocks) >= kMost && share(there.blocks, other.blocks) <= kHardly;
    if (!by_shots && !by_blocks) continue;
    findings.push_back({"finding_on_one_setup", Severity::caution, {},
                        fmt::format("In {} of '{}', but {} of '{}': {} What differs between the two may be that.",
                                    with_without(own, code, by_shots), setup, with_without(other, code, by_shots), other_setup, met.sentence)});
  }
}

}  // namespace

std::vector<Finding> one_sided_findings(const Session& session, const std::string& baseline) {
  std::vector<Finding> findings;
  const SideSeen base = seen_of(session, baseline);
  for (const std::string& setup : session.setups()) {
    if (setup == baseline) continue;
    const SideSeen own = seen_of(session, setup);
    hold(setup, own, baseline, base, findings);
    hold(baseline, base, setup, own, findings);
  }
  return findings;
}

}  // namespace ringfall::compare
