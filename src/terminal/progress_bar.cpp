// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/progress_bar.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <numeric>

#include "base/screen_text.h"

namespace ringfall::terminal {
namespace {

using namespace std::chrono_literals;
constexpr auto kQuiet = 1s;
constexpr auto kRedraw = 100ms;
constexpr int kWidth = 30;

}  // namespace

ProgressBar::ProgressBar(std::string what, std::size_t parts)
    : what_(std::move(what)),
      shares_(std::max<std::size_t>(parts, 1), 0.0),
      started_(std::chrono::steady_clock::now()),
      drawn_(started_),
      terminal_(isatty(STDERR_FILENO) == 1) {}

ProgressBar::~ProgressBar() { wipe(); }

void ProgressBar::report(std::size_t part, std::optional<double> share) {
  if (!terminal_) return;
  const std::scoped_lock hold(lock_);
  if (share) shares_[part] = std::clamp(*share, 0.0, 1.0);
  const auto now = std::chrono::steady_clock::now();
  if (now - started_ < kQuiet || now - drawn_ < kRedraw) return;
  drawn_ = now;
  draw(std::accumulate(shares_.begin(), shares_.end(), 0.0) / static_cast<double>(shares_.size()));
}

void ProgressBar::draw(double share) {
  const int full = static_cast<int>(share * kWidth);
  fmt::print(stderr, "\r{} [{}{}] {:3.0f} %", screen_text(what_, false), std::string(static_cast<std::size_t>(full), '='),
             std::string(static_cast<std::size_t>(kWidth - full), ' '), share * 100.0);
  std::fflush(stderr);
  on_screen_ = true;
}

void ProgressBar::wipe() {
  if (!on_screen_) return;
  fmt::print(stderr, "\r\x1b[K");
  std::fflush(stderr);
}

}  // namespace ringfall::terminal
