// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/blind_test.h"

#include <fmt/format.h>

#include <algorithm>

#include "stats/distributions.h"

namespace ringfall::desk {

void BlindTest::draw() {
  second_ = (luck_() >> 40U) % 2U == 1U;
  pick_ = static_cast<std::size_t>(luck_() >> 33U);
}

void BlindTest::answer(bool second) {
  log_.push_back({second_, second});
  draw();
}

void BlindTest::start_over() {
  log_.clear();
  draw();
}

std::size_t BlindTest::right() const { return static_cast<std::size_t>(std::ranges::count_if(log_, &Round::right)); }

std::string BlindTest::score() const {
  if (log_.empty()) return "No round yet.";
  const double p = stats::binomial_upper_p(right(), rounds(), 0.5);
  return fmt::format("{} of {} right; who only guesses does as well in {:.1f} % of such tests.", right(), rounds(), 100.0 * p);
}

std::optional<std::size_t> beyond_guessing(std::size_t rounds) {
  for (std::size_t right = 0; right <= rounds; ++right) {
    if (stats::binomial_upper_p(right, rounds, 0.5) <= 0.05) return right;
  }
  return std::nullopt;
}

plot::Figure score_figure(const BlindTest& test) {
  const std::size_t last = std::max(kFairRounds, test.rounds());
  plot::Trace seldom{.ink = plot::Ink::muted, .name = "5 of 100 guessers", .dash = plot::Dash::dashed};
  plot::Trace half{.x = {0.0, static_cast<double>(last)}, .y = {0.0, 0.5 * static_cast<double>(last)}, .ink = plot::Ink::muted,
                   .name = "guessing, mean", .dash = plot::Dash::dotted};
  plot::Trace right{.x = {0.0}, .y = {0.0}, .ink = plot::Ink::accent, .name = "right", .width_pt = 2.0, .dash = plot::Dash::solid};
  for (std::size_t n = 1; n <= last; ++n) {
    if (const auto most = beyond_guessing(n)) {
      seldom.x.push_back(static_cast<double>(n));
      seldom.y.push_back(static_cast<double>(*most));
    }
  }
  double so_far = 0.0;
  for (std::size_t k = 0; k < test.log().size(); ++k) {
    so_far += test.log()[k].right() ? 1.0 : 0.0;
    right.x.push_back(static_cast<double>(k + 1));
    right.y.push_back(so_far);
  }
  plot::Panel panel;
  panel.x.quantity = "Round";
  panel.x.low = 0.0;
  panel.x.high = static_cast<double>(last);
  panel.y.quantity = "Right";
  panel.y.low = 0.0;
  panel.y.high = static_cast<double>(last);
  panel.series = {std::move(half), std::move(seldom), std::move(right)};
  plot::Figure figure;
  figure.panels = {std::move(panel)};
  return figure;
}

}  // namespace ringfall::desk
