// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/names.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"

namespace ringfall::logbook {
namespace {

bool is_control(char letter) { return static_cast<unsigned char>(letter) < 0x20 || letter == 0x7F; }

}  // namespace

void need_name(const std::string& name, const char* what) {
  if (name.find_first_not_of(' ') == std::string::npos) throw RequestFailure(fmt::format("a {} needs a name; this one is empty", what));
  if (std::ranges::none_of(name, is_control)) return;
  throw RequestFailure(fmt::format("the name of a {} stands on one line: no line breaks, tabs or other control characters", what));
}

}  // namespace ringfall::logbook
