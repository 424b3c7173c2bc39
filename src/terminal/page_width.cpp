// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/page_width.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>

namespace ringfall::terminal {
namespace {

constexpr std::size_t kUnknown = 80;
constexpr std::size_t kNarrowest = 40;

}  // namespace

std::size_t page_width() {
  std::size_t width = 0;
  winsize size{};
  if (isatty(STDOUT_FILENO) == 1 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) width = size.ws_col;
  if (width == 0) {
    if (const char* told = std::getenv("COLUMNS")) width = static_cast<std::size_t>(std::clamp(std::atol(told), 0L, 10000L));
  }
  return std::max(width == 0 ? kUnknown : width, kNarrowest);
}

}  // namespace ringfall::terminal
