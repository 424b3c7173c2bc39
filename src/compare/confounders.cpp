// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/confounders.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "stats/summary.h"

namespace ringfall::compare {
namespace {

using Blocks = std::vector<const SessionBlock*>;

constexpr double kFloorStep_db = 3.0;   // a gain step, a fan, another place
constexpr double kLagStep = 0.03;       // 3 % in lag: half a metre at 18 m, or an arrow of another weight
constexpr std::size_t kFewShots = 5;
constexpr double kUnbalanced = 0.75;    // of the session's blocks between the set-ups' mean positions

template <class Of>
std::optional<double> median_over(const SessionBlock& block, Of of) {
  std::vector<double> values;
  for (const auto& entry : block.shots) {
    if (const auto value = of(entry.shot)) values.push_back(*value);
  }
  return stats::median(values);
}

void judge_floor(const Blocks& blocks, std::vector<Finding>& findings) {
  std::optional<double> usual;
  for (const SessionBlock* kept : blocks) {
    const SessionBlock& block = *kept;
    const auto floor = median_over(block, [](const shot::Shot& shot) { return shot.levels.floor_db; });
    if (!floor) continue;
    if (!usual) usual = floor;
    if (std::abs(*floor - *usual) <= kFloorStep_db) continue;
    findings.push_back(
        {"floor_changed", Severity::caution, {Quantity::levels, Quantity::hum, Quantity::ping},
         fmt::format("{}: the background is {:+.1f} dB against the first recording: gain, microphone or place changed. "
                     "Differences of level with this block are not the set-up's alone.",
                     block.file, *floor - *usual)});
  }
}

void judge_lag(const Blocks& blocks, std::vector<Finding>& findings) {
  std::optional<double> usual;
  for (const SessionBlock* kept : blocks) {
    const SessionBlock& block = *kept;
    const auto lag = median_over(block, [](const shot::Shot& shot) { return shot.impact_lag_s; });
    if (!lag) continue;
    if (!usual) usual = lag;
    if (std::abs(*lag / *usual - 1.0) <= kLagStep) continue;
    findings.push_back({"impact_lag_changed", Severity::caution, {},
                        fmt::format("{}: the arrow strikes after {:.0f} ms, in the first recording after {:.0f} ms: another "
                                    "distance, arrow or speed.",
                                    block.file, 1000.0 * *lag, 1000.0 * *usual)});
  }
}

void judge_recordings(const Blocks& blocks, std::vector<Finding>& findings) {
  for (const SessionBlock* kept : blocks) {
    const SessionBlock& block = *kept;
    if (block.sample_rate_hz != blocks.front()->sample_rate_hz) {
      findings.push_back({"sample_rate_changed", Severity::caution, {},
                          fmt::format("{}: recorded at {:g} Hz, the first at {:g} Hz: another chain.", block.file,
                                      block.sample_rate_hz, blocks.front()->sample_rate_hz)});
    }
    const auto voids = [](const Finding& finding) { return finding.severity == Severity::void_; };
    std::size_t spoilt = 0;
    for (const auto& entry : block.shots) {
      if (std::ranges::any_of(entry.shot.findings, voids)) ++spoilt;
    }
    if (std::ranges::any_of(block.findings, voids) || (spoilt > 0 && 2 * spoilt >= block.shots.size())) {
      findings.push_back({"recording_spoilt", Severity::caution, {},
                          fmt::format("{}: some of its numbers are void and left out; `ringfall measure` says why.",
                                      block.file)});
    }
    if (block.shots.empty()) {
      findings.push_back({"no_shot", Severity::caution, {}, fmt::format("{}: no shot was found in it.", block.file)});
    }
  }
}

/// Where the set-up's blocks lie on average, 0 .. number of blocks - 1.
double mean_position(const Blocks& blocks, const std::string& setup) {
  std::vector<double> places;
  for (std::size_t k = 0; k < blocks.size(); ++k) {
    if (blocks[k]->setup == setup) places.push_back(static_cast<double>(k));
  }
  return stats::mean(places).value_or(0.0);
}

void judge_order(const Session& session, const std::string& baseline, std::vector<Finding>& findings) {
  const Blocks kept = session.kept();
  for (const auto& setup : session.setups()) {
    std::size_t shots = 0;
    std::size_t blocks = 0;
    for (const SessionBlock* block : kept) {
      if (block->setup != setup) continue;
      ++blocks;
      shots += block->shots.size();
    }
    if (shots < kFewShots) {
      findings.push_back({"few_shots", Severity::caution, {},
                          fmt::format("'{}' has {} shots only: ten or more are wanted to see 1 dB.", setup, shots)});
    }
    if (blocks < 2) {
      findings.push_back({"one_block", Severity::caution, {},
                          fmt::format("'{}' was shot in one block: what changed with time (strings, arms, weather) can't be "
                                      "told from the set-up. Shoot in the order A B B A.",
                                      setup)});
    } else if (setup != baseline &&
               std::abs(mean_position(kept, setup) - mean_position(kept, baseline)) >
                   kUnbalanced) {
      findings.push_back({"order_unbalanced", Severity::note, {},
                          fmt::format("'{}' was shot {} than '{}' on average: a steady drift over the session shows up as a "
                                      "difference.",
                                      setup,
                                      mean_position(kept, setup) > mean_position(kept, baseline) ? "later" : "earlier",
                                      baseline)});
    }
  }
}

}  // namespace

std::vector<Finding> confounders(const Session& session, const std::string& baseline) {
  std::vector<Finding> findings;
  for (const SessionBlock& block : session.blocks) {
    for (const std::string& sentence : block.left_out) findings.push_back({"shot_left_out", Severity::note, {}, sentence});
    if (block.dropped.empty()) continue;
    findings.push_back({"block_dropped", Severity::note, {},
                        fmt::format("{} ('{}', {} shots) is left out: {}.", block.file, block.setup, block.shots.size(),
                                    block.dropped)});
  }
  const Blocks blocks = session.kept();
  judge_floor(blocks, findings);
  judge_lag(blocks, findings);
  judge_recordings(blocks, findings);
  judge_order(session, baseline, findings);
  return findings;
}

}  // namespace ringfall::compare
