// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "terminal/logbook_requests.h"

namespace CLI {
class App;
}

namespace ringfall::terminal {

/// Gives the request of one verb, its units understood. RequestFailure: a value out of range, or nothing said.
using Understand = std::function<LogbookRequest()>;

/// A verb with a logbook as its first argument and an example under its help; `logbook` must outlive the reading.
CLI::App* add_logbook_verb(CLI::App& app, const char* name, const char* what, const char* example, std::string& logbook);

/// Adds the verbs of the logbook and puts what understands each beside it.
void add_logbook_verbs(CLI::App& app, std::vector<std::pair<CLI::App*, Understand>>& verbs);

/// The part of them that describes things: start, session, bow, set-up, block.
void add_describing_verbs(CLI::App& app, std::vector<std::pair<CLI::App*, Understand>>& verbs);

/// `--units metric|archers`.
void add_units(CLI::App& verb, Units& units);

/// The request of the verb that was given.
LogbookRequest logbook_request(const std::vector<std::pair<CLI::App*, Understand>>& verbs);

}  // namespace ringfall::terminal
