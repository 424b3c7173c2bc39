// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "logbook/logbook.h"

namespace ringfall::work {

/// Those of a bow, in the order they were made.
std::vector<std::string> setup_names(const logbook::Logbook& book, const std::string& bow);

/// May a set-up be made of a name that is not there?
enum class NewSetUp {
  refused,      ///< it must be said to be new
  when_unlike,  ///< unless it looks like a slip of the pen
  meant         ///< it was said to be new
};

/// Is the set-up `name` of a bow to be made? RequestFailure: it is not there and may not be made; or it differs from one that is
/// there in capitals only, which nobody could tell apart by ear. Tests: work.SetUps.*
bool is_to_be_made(const logbook::Logbook& book, const std::string& bow, const std::string& name, NewSetUp allowed);

}  // namespace ringfall::work
