// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <string>

namespace ringfall::terminal {

/// What is wrong with a typed value, as a sentence for a person; empty: nothing.
using ValueCheck = std::function<std::string(const std::string&)>;

/// What a kind of value asks for, by the word that stands for it in the help ("FILE", "NAME", "N", "DB"): names of files, folders and
/// devices are not empty, names of bows and set-ups stand on one line too, numbers are numbers. Empty: nothing.
ValueCheck check_for_kind(const std::string& kind);

/// NaN is refused.
ValueCheck check_whole_number(std::int64_t low, std::int64_t high);
ValueCheck check_number_between(double low, double high);

}  // namespace ringfall::terminal
