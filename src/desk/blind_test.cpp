// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/blind_test.h"

#include <fmt/format.h>

#include "stats/distributions.h"

namespace ringfall::desk {

void BlindTest::draw() {
  second_ = (luck_() >> 40U) % 2U == 1U;
  pick_ = static_cast<std::size_t>(luck_() >> 33U);
}

void BlindTest::answer(bool second) {
  ++rounds_;
  if (second == second_) ++right_;
  draw();
}

void BlindTest::start_over() {
  rounds_ = 0;
  right_ = 0;
  draw();
}

std::string BlindTest::score() const {
  if (rounds_ == 0) return "No round yet. Sixteen make a fair test.";
  const double p = stats::binomial_upper_p(right_, rounds_, 0.5);
  return fmt::format("{} of {} right; who only guesses does as well in {:.1f} % of such tests.", right_, rounds_, 100.0 * p);
}

}  // namespace ringfall::desk
