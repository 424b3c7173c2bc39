// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/block_spread.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr double kManyOthers = 8.0;      // degrees of freedom
constexpr double kOwnSpreadAlpha = 0.05;
constexpr double kEveningsApart = 0.2;   // p below which two or three evenings stand for themselves
constexpr double kEveningDf = 2.0;       // what the blocks' variance counts for beside them
constexpr double kEveningRatio = 2.0;
constexpr double kDisagree = 0.05;
constexpr std::size_t kManyEvenings = 4;

/// A variance and how well it is known.
struct Variance {
  double value = 0.0;
  double df = 0.0;
};

/// Variance of a sum of block means, each times a factor: `blocks` the sum of the squares of the factors, `shots` of those over the
/// numbers of shots.
struct Load {
  double blocks = 0.0;
  double shots = 0.0;
};

double share(double value, double df) { return value == 0.0 ? 0.0 : value * value / df; }

/// By what blocks and shots are known to scatter; df 0: nothing is.
Variance by_spread(const BlockSpread& spread, const Load& load) {
  const double from_blocks = load.blocks * spread.block_square;
  const double from_shots = (load.shots - load.blocks / spread.n0) * spread.shot_square;
  if (spread.block_df < 1.0) return {load.shots * spread.shot_square, 0.0};
  const double value = std::max(0.0, from_blocks + from_shots);
  const double parts = share(from_blocks, spread.block_df) + (from_shots == 0.0 ? 0.0 : share(from_shots, spread.shot_df));
  return {value, parts > 0.0 ? std::max(1.0, value * value / parts) : spread.block_df};
}

/// As if nothing was known of the blocks' wander but what is usual.
Variance by_assumption(const BlockSpread& spread, const Load& load) {
  return {(load.shots + kAssumedWander * kAssumedWander * load.blocks) * spread.shot_square, kAssumedDf};
}

Variance joined(const Variance& one, const Variance& other) {
  return {(one.value * one.df + other.value * other.df) / (one.df + other.df), one.df + other.df};
}

double weight_of(const SessionBlocks& session) {
  const auto n1 = static_cast<double>(block_means(session.first).size());
  const auto n2 = static_cast<double>(block_means(session.second).size());
  return n1 * n2 / (n1 + n2);
}

/// One of the two set-ups over the sessions.
struct Side {
  Load load;
  double own = 0.0;     ///< variance of its part of the difference by its own blocks
  double own_df = 0.0;
  double blocks = 0.0;
};

Side side_of(std::span<const SessionBlocks> sessions, Blocks SessionBlocks::*blocks, double weights) {
  Side side;
  double squares = 0.0;
  for (const SessionBlocks& session : sessions) {
    const auto means = block_means(session.*blocks);
    const auto n = static_cast<double>(means.size());
    const double factor = weight_of(session) / weights / n;
    squares += squares_about_mean(means);
    side.own_df += n - 1.0;
    side.blocks += n;
    for (const auto& block : session.*blocks) {
      if (block.empty()) continue;
      side.load.blocks += factor * factor;
      side.load.shots += factor * factor / static_cast<double>(block.size());
    }
  }
  if (side.own_df > 0.0) side.own = side.load.blocks * squares / side.own_df;
  return side;
}

/// Is the set-up's own spread to be heard beside the common one?
bool own_counts(const Side& side, const Variance& common, double others_df) {
  if (side.own_df < 1.0 || side.own <= common.value || common.value <= 0.0) return false;
  return others_df < kManyOthers || f_upper_p(side.own / common.value, side.own_df, others_df) < kOwnSpreadAlpha;
}

Variance of_blocks(const BlockSpread& spread, const Side& first, const Side& second, BlockedDifference& result) {
  const Load both{first.load.blocks + second.load.blocks, first.load.shots + second.load.shots};
  const Variance common = by_spread(spread, both);
  if (spread.block_df < kFewestBlockDf) {
    if (spread.shot_df < 1.0) return common;  // the assumption is in parts of the shots' scatter
    result.assumed = true;
    const Variance assumed = by_assumption(spread, both);
    return common.df < 1.0 ? assumed : joined(common, assumed);
  }
  if (first.blocks == second.blocks) return common;
  Variance sum;
  double parts = 0.0;
  for (const Side* side : {&first, &second}) {
    const Variance usual = by_spread(spread, side->load);
    const double others_df = spread.block_df - side->own_df;
    const bool few = others_df < kManyOthers && side->own_df >= 1.0;
    const double value = own_counts(*side, usual, others_df) ? side->own : usual.value;
    result.own_spreads = result.own_spreads || value == side->own || few;
    parts += share(value, few || value == side->own ? side->own_df : usual.df);
    sum.value += value;
  }
  sum.df = parts > 0.0 ? std::max(1.0, sum.value * sum.value / parts) : common.df;
  return sum;
}

/// With what the sessions' own differences say.
Variance with_evenings(const Variance& blocks, std::span<const double> differences, std::span<const double> weights,
                       double mean, BlockedDifference& result) {
  const auto sessions = differences.size();
  double squares = 0.0;
  double sum = 0.0;
  for (std::size_t k = 0; k < sessions; ++k) {
    squares += weights[k] * (differences[k] - mean) * (differences[k] - mean);
    sum += weights[k];
  }
  const double df = static_cast<double>(sessions) - 1.0;
  const Variance evenings{squares / df / sum, df};
  Evenings seen;
  seen.differences.assign(differences.begin(), differences.end());
  if (!result.assumed && blocks.value > 0.0) {
    seen.f = evenings.value / blocks.value;
    seen.p = f_upper_p(seen.f, df, blocks.df);
    seen.disagree = seen.p < kDisagree;
  }
  const bool apart = seen.p < kEveningsApart;
  result.evenings = std::move(seen);
  if (result.assumed) {
    if (df < kFewestBlockDf) return joined(evenings, blocks);
    result.assumed = false;
    return evenings;
  }
  if (apart || blocks.df < 1.0 || sessions >= kManyEvenings) return evenings;
  const Variance both = joined(evenings, {kEveningRatio * blocks.value, kEveningDf});
  return {std::max(both.value, blocks.value), both.df};
}

}  // namespace

double BlockSpread::wander_square() const { return block_df < 1.0 ? 0.0 : std::max(0.0, block_square - shot_square / n0); }

BlockSpread spread_of_blocks(std::span<const Blocks> cells) {
  BlockSpread spread;
  double within = 0.0, between = 0.0, weight = 0.0;
  for (const Blocks& cell : cells) {
    double n = 0.0, sum = 0.0, squares = 0.0, blocks = 0.0;
    for (const auto& block : cell) {
      if (block.empty()) continue;
      check_finite(block);
      const auto count = static_cast<double>(block.size());
      n += count;
      squares += count * count;
      sum += count * plain_mean(block);
      within += squares_about_mean(block);
      spread.shot_df += count - 1.0;
      blocks += 1.0;
    }
    if (blocks == 0.0) continue;
    ++spread.cells;
    spread.blocks += static_cast<std::size_t>(blocks);
    for (const auto& block : cell) {
      if (block.empty()) continue;
      const double off = plain_mean(block) - sum / n;
      between += static_cast<double>(block.size()) * off * off;
    }
    spread.block_df += blocks - 1.0;
    weight += n - squares / n;
  }
  if (spread.shot_df > 0.0) spread.shot_square = within / spread.shot_df;
  if (spread.block_df > 0.0) {
    spread.n0 = weight / spread.block_df;
    spread.block_square = between / spread.block_df / spread.n0;
  }
  return spread;
}

std::optional<BlockedDifference> difference_over_blocks(std::span<const SessionBlocks> sessions, const BlockSpread& spread,
                                                        double confidence) {
  check_share(confidence);
  const auto both = with_both(sessions);
  if (both.empty()) return std::nullopt;
  std::vector<double> differences;
  std::vector<double> weights;
  double sum = 0.0;
  double mean = 0.0;
  for (const SessionBlocks& session : both) {
    differences.push_back(plain_mean(block_means(session.second)) - plain_mean(block_means(session.first)));
    weights.push_back(weight_of(session));
    sum += weights.back();
    mean += weights.back() * differences.back();
  }
  mean /= sum;
  BlockedDifference result;
  const Side first = side_of(both, &SessionBlocks::first, sum);
  const Side second = side_of(both, &SessionBlocks::second, sum);
  Variance error = of_blocks(spread, first, second, result);
  if (both.size() > 1) error = with_evenings(error, differences, weights, mean, result);
  const auto reach_of = [confidence](const Variance& variance) {
    return variance.value > 0.0 ? student_t_quantile(0.5 + 0.5 * confidence, variance.df) * std::sqrt(variance.value) : 0.0;
  };
  // Blocks that agree better than their shots can let them do so by luck.
  const Variance by_shots{(first.load.shots + second.load.shots) * spread.shot_square, spread.shot_df};
  if (reach_of(by_shots) > reach_of(error)) {
    error = by_shots;
    result.at_floor = true;
  }
  const double reach = reach_of(error);
  if (reach == 0.0) return std::nullopt;
  Difference& found = result.difference;
  found.difference = mean;
  found.standard_error = std::sqrt(error.value);
  found.df = error.df;
  found.t = mean / found.standard_error;
  found.p = student_t_two_sided_p(found.t, found.df);
  found.interval = {mean - reach, mean + reach};
  return result;
}

}  // namespace ringfall::stats
