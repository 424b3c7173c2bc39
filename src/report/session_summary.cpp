// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/session_summary.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/sentences.h"

namespace ringfall::report {
namespace {

/// Findings that say the same, with where they were met.
struct Met {
  Finding finding;
  std::vector<std::string> places;
};

void meet(std::vector<Met>& all, const Finding& finding, const std::string& place) {
  // Sentences of one kind differ in their numbers; the first stands for all.
  const auto same = std::ranges::find_if(all, [&finding](const Met& met) {
    return met.finding.code == finding.code && met.finding.severity == finding.severity &&
           met.finding.voids == finding.voids;
  });
  if (same == all.end()) {
    all.push_back({finding, {place}});
  } else {
    same->places.push_back(place);
  }
}

std::string shot_numbers(const std::vector<std::string>& numbers) {
  return fmt::format("shot{} {}", numbers.size() == 1 ? "" : "s", listed(numbers));
}

bool worth_saying(const Finding& finding) { return finding.severity != Severity::note; }

std::string dropped_sentence(const compare::SessionBlock& block) {
  return fmt::format("{} (block {}) is left out: {}.", block.file, block.block, block.dropped);
}

/// Why shots of a block have no value: what voids numbers, else what casts doubt.
std::vector<std::string> reasons(const compare::SessionBlock& block, const shot::Number& number) {
  std::vector<Met> met;
  for (const Severity severity : {Severity::void_, Severity::caution}) {
    for (const auto& finding : block.findings) {
      if (finding.severity == severity) meet(met, finding, "");
    }
    for (const auto& entry : block.shots) {
      if (number.of(entry.shot)) continue;
      for (const auto& finding : entry.shot.findings) {
        if (finding.severity == severity) meet(met, finding, "");
      }
    }
    if (!met.empty()) break;
  }
  std::vector<std::string> sentences;
  for (const Met& entry : met) sentences.push_back(entry.finding.sentence);
  return sentences;
}

void add_shot_doubts(const compare::Session& session, std::vector<std::string>& doubts) {
  for (const auto& block : session.blocks) {
    std::vector<Met> met;
    for (const auto& entry : block.shots) {
      for (const auto& finding : entry.shot.findings) {
        if (worth_saying(finding)) meet(met, finding, std::to_string(entry.shot.number));
      }
    }
    for (const Met& entry : met) {
      doubts.push_back(fmt::format("{}, {}: {}", block.file, shot_numbers(entry.places), entry.finding.sentence));
    }
  }
}

}  // namespace

SetUpSummary setup_summary(const compare::Session& session, const std::string& setup, const shot::Number& number) {
  SetUpSummary summary;
  summary.name = setup;
  for (const auto& block : session.blocks) {
    if (block.setup != setup) continue;
    summary.blocks.push_back(fmt::format("{} ({})", block.block, block.file));
    if (!block.note.empty() && std::ranges::find(summary.notes, block.note) == summary.notes.end()) {
      summary.notes.push_back(block.note);
    }
    summary.shots += block.shots.size() + block.left_out.size();
    if (!block.dropped.empty()) {
      summary.left_out.push_back(dropped_sentence(block));
      continue;
    }
    for (const auto& sentence : block.left_out) summary.left_out.push_back(sentence);
    std::vector<std::string> without;
    for (const auto& entry : block.shots) {
      if (!number.of(entry.shot)) without.push_back(std::to_string(entry.shot.number));
    }
    summary.kept += block.shots.size() - without.size();
    if (block.shots.empty() && block.left_out.empty()) summary.left_out.push_back(block.file + ": no shot was found in it.");
    if (without.empty()) continue;
    std::string sentence = fmt::format("{}: {} without {}.", block.file, shot_numbers(without), number.label);
    for (const auto& reason : reasons(block, number)) sentence += " " + reason;
    summary.left_out.push_back(std::move(sentence));
  }
  return summary;
}

std::vector<std::string> doubts_of(const ReportSource& source) {
  std::vector<std::string> doubts = source.complaints;
  for (const auto& finding : source.comparison.findings) doubts.push_back(finding.sentence);
  std::vector<Met> met;
  for (const auto& block : source.session.blocks) {
    for (const auto& finding : block.findings) meet(met, finding, block.file);
  }
  for (const Met& entry : met) {
    const bool everywhere = entry.places.size() == source.session.blocks.size() && entry.places.size() > 1;
    doubts.push_back((everywhere ? std::string("All recordings") : listed(entry.places)) + ": " + entry.finding.sentence);
  }
  add_shot_doubts(source.session, doubts);
  std::vector<std::string> once;
  for (auto& doubt : doubts) {
    if (std::ranges::find(once, doubt) == once.end()) once.push_back(std::move(doubt));
  }
  return once;
}

}  // namespace ringfall::report
