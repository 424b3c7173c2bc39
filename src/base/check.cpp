// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/check.h"

#include <fmt/format.h>

#include "base/failure.h"

namespace ringfall {

void check(bool promise, std::string_view what, std::source_location where) {
  if (promise) return;
  throw InternalError(fmt::format("internal error: {} ({}:{}, {})", what, where.file_name(),
                                  where.line(), where.function_name()));
}

}  // namespace ringfall
