// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ringfall::audio {

/// The full name of an executable file `name` in the first of `folders` (absolute names separated by colons, as in PATH) that
/// has one. Empty and relative folders are passed over: a program must not come from wherever the person happens to be.
std::optional<std::string> find_program(std::string_view name, std::string_view folders);

/// The PATH of the environment; empty when there is none.
std::string environment_path();

}  // namespace ringfall::audio
