// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace CLI {
class App;
}

namespace ringfall::terminal {

/// A bash script that completes the program's verbs and options, made from the command line's own definition; what is neither
/// is completed as a file. Tested: terminal.Completion.*, in bash.
std::string bash_completion(const CLI::App& app);

}  // namespace ringfall::terminal
