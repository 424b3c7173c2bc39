// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

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
  std::size_t rounds() const { return rounds_; }
  std::size_t right() const { return right_; }
  void start_over();
  /// "7 of 8 right; who only guesses does as well in 3.5 % of such tests."
  std::string score() const;

 private:
  void draw();
  std::mt19937_64 luck_;
  bool second_ = false;
  std::size_t pick_ = 0;
  std::size_t rounds_ = 0;
  std::size_t right_ = 0;
};

}  // namespace ringfall::desk
