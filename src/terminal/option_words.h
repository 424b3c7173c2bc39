// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace CLI {
class App;
class ParseError;
class Validator;
}  // namespace CLI

namespace ringfall::terminal {

/// As in value_checks.h. CLI11's own validators write their names into the help.
CLI::Validator whole_number(std::int64_t low, std::int64_t high);
CLI::Validator number_between(double low, double high);

/// Gives every option of the app and its verbs the check that its kind of value asks for. Call it when all options are there.
void check_kinds_of_values(CLI::App& app);

/// Help in the program's own plain words. Call it when all verbs are there.
void use_plain_help(CLI::App& app);

/// RequestFailure for a word that is no verb, no second word of one ("set-up ad"), or no option of the verb, with the nearest that is.
void refuse_unknown_words(const CLI::App& app, const std::vector<std::string>& arguments);

/// "Numbers: hum, ...": those that a main number can be, for a verb's help.
std::string numbers_there_are();

/// What is wrong with a command line that could not be read, as a sentence for a person.
std::string sentence_of(const CLI::ParseError& stop, const CLI::App& app);

}  // namespace ringfall::terminal
