// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <span>
#include <utility>

namespace ringfall::stats {

/// Seed of every resampling unless the caller gives another: the same data give the same numbers everywhere.
inline constexpr std::uint64_t kSeed = 20240501;

/// Random numbers that are the same on every machine: the generator is fixed by the C++ standard (mt19937_64), the
/// library's distributions are not, so these are our own.
class Random {
 public:
  explicit Random(std::uint64_t seed = kSeed) : generator_(seed) {}

  /// Whole number 0 .. n - 1, each equally likely. n >= 1.
  std::size_t below(std::size_t n);
  /// 0 < u < 1, steps of 2^-52.
  double uniform();
  /// Mean 0, standard deviation 1: the normal quantile of uniform().
  double normal();
  /// Each order equally likely.
  template <typename T>
  void shuffle(std::span<T> values) {
    for (std::size_t i = values.size(); i > 1; --i) std::swap(values[i - 1], values[below(i)]);
  }

 private:
  std::mt19937_64 generator_;
};

}  // namespace ringfall::stats
