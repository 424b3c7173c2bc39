// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <system_error>

namespace ringfall::audio {

/// What the system says of an error number (errno), for sentences of failures.
inline std::string system_reason(int error) { return std::generic_category().message(error); }

}  // namespace ringfall::audio
