// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "terminal/requests.h"

namespace CLI {
class App;
}

namespace ringfall::terminal {

/// Everything the command line of the logbook's verbs fills.
struct LogbookReading {
  StartRequest start;
  AddRequest add;
  ListRequest list;
  CommentRequest comment;
  DropRequest drop;
  DropRequest restore;
  RemeasureRequest remeasure;
  std::string distance;            ///< texts whose units or blanks are understood afterwards
  std::string temperature;
  std::vector<std::string> words;
};

void add_logbook_verbs(CLI::App& app, LogbookReading& reading);

/// The request of the logbook's verb that was given. RequestFailure: a value out of range, or nothing said.
Request logbook_request(const CLI::App& app, LogbookReading& reading);

}  // namespace ringfall::terminal
