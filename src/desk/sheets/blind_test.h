// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "plot/figure.h"

namespace ringfall::desk {

/// A hidden sound X is A or B, drawn by a fair coin each time; the listener says which. What guessing alone would give is
/// said beside the score (binomial with chance 1/2, one-sided). Tests: desk.BlindTest.*
class BlindTest {
 public:
  explicit BlindTest(std::uint64_t luck = std::random_device{}()) : luck_(luck) { draw(); }

  bool hidden_is_second() const { return second_; }
  /// Which of several shots stands for each, so that no single recording is learnt by heart.
  std::size_t pick() const { return pick_; }
  void answer(bool second);
  /// One answered round.
  struct Round {
    bool was_second = false;
    bool said_second = false;
    bool right() const { return was_second == said_second; }
  };
  const std::vector<Round>& log() const { return log_; }
  std::size_t rounds() const { return log_.size(); }
  std::size_t right() const;
  void start_over();
  /// "7 of 8 right; who only guesses does as well in 3.5 % of such tests."
  std::string score() const;

 private:
  void draw();
  std::mt19937_64 luck_;
  bool second_ = false;
  std::size_t pick_ = 0;
  std::vector<Round> log_;
};

/// The fewest right answers of so many rounds that guessing reaches in 5 of 100 tests at most; nullopt: not even all of them.
std::optional<std::size_t> beyond_guessing(std::size_t rounds);

/// Right answers round by round, beside what guessing gives on average and what it seldom reaches; at least kFairRounds wide.
plot::Figure score_figure(const BlindTest& test);
inline constexpr std::size_t kFairRounds = 16;

}  // namespace ringfall::desk
