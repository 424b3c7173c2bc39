// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/random.h"

#include "base/check.h"
#include "stats/distributions.h"

namespace ringfall::stats {

std::size_t Random::below(std::size_t n) {
  check(n >= 1, "at least one to choose from");
  // The uneven rest of the range is drawn again, so that all are equally likely.
  const std::uint64_t range = n;
  const std::uint64_t uneven = (std::mt19937_64::max() % range + 1) % range;
  std::uint64_t draw = generator_();
  while (draw > std::mt19937_64::max() - uneven) draw = generator_();
  return static_cast<std::size_t>(draw % range);
}

double Random::uniform() {
  // The middle of one of 2^52 equal steps: never 0, never 1.
  return (static_cast<double>(generator_() >> 12) + 0.5) * 0x1p-52;
}

double Random::normal() { return normal_quantile(uniform()); }

}  // namespace ringfall::stats
