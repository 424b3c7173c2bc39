// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall {

/// The program's version, printed with every result; set once, in the top CMakeLists.txt.
inline constexpr const char* kVersion = RINGFALL_VERSION;

}  // namespace ringfall
