// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/option_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cctype>
#include <memory>
#include <utility>

#include "base/failure.h"
#include "base/nearest.h"
#include "shot/numbers.h"
#include "terminal/text_table.h"
#include "terminal/value_checks.h"

namespace ringfall::terminal {
namespace {

std::string list_of_names(const std::set<CLI::Option*>& options) {
  std::vector<std::string> names;
  for (const CLI::Option* option : options) names.push_back(option->get_name());
  return fmt::format("{}", fmt::join(names, ", "));
}

CLI::Validator validator(ValueCheck check) {
  return CLI::Validator([check = std::move(check)](const std::string& typed) { return check(typed); }, "");
}

class PlainHelp final : public CLI::Formatter {
 public:
  std::string make_option_opts(const CLI::Option* option) const override {
    std::string out;
    if (option->get_type_size() != 0) {
      if (!option->get_type_name().empty()) out += " " + option->get_type_name();
      if (!option->get_default_str().empty()) out += "=" + option->get_default_str();
      if (takes_several(option)) out += " ...";
      if (option->get_required()) out += " (needed)";
    }
    if (!option->get_needs().empty()) out += " (with " + list_of_names(option->get_needs()) + ")";
    if (!option->get_excludes().empty()) out += " (not with " + list_of_names(option->get_excludes()) + ")";
    return out;
  }
  std::string make_option_usage(const CLI::Option* option) const override {
    const std::string name = make_option_name(option, true) + (option->get_expected_max() > 1 ? "..." : "");
    return option->get_required() ? name : "[" + name + "]";
  }

  /// A group of options of which one must be given, or a verb below.
  std::string make_expanded(const CLI::App* part) const override {
    if (!part->get_name().empty()) return CLI::Formatter::make_expanded(part);
    return make_group("One of these", false, part->get_options([part](const CLI::Option* option) { return option != part->get_help_ptr(); }));
  }

 private:
  /// One after another, not the option's name again for each.
  static bool takes_several(const CLI::Option* option) {
    return option->get_expected_max() > 1 && (option->get_positional() || option->get_allow_extra_args());
  }
};

/// The options of a verb, those of its groups too.
void gather_options(const CLI::App& verb, std::vector<std::string>& names) {
  for (const CLI::Option* option : verb.get_options()) {
    for (const auto& name : option->get_lnames()) names.push_back("--" + name);
    for (const auto& name : option->get_snames()) names.push_back("-" + name);
  }
  for (const CLI::App* below : verb.get_subcommands({})) {
    if (below->get_name().empty()) gather_options(*below, names);
  }
}

std::vector<std::string> verbs_below(const CLI::App& verb) {
  std::vector<std::string> names;
  for (const CLI::App* next : verb.get_subcommands({})) {
    if (!next->get_name().empty()) names.push_back(next->get_name());  // groups of options have none
  }
  return names;
}

/// "-5" is a number.
bool looks_like_option(const std::string& word) {
  return word.starts_with("--") ? word.size() > 2
                                : word.size() > 1 && word[0] == '-' && std::isalpha(static_cast<unsigned char>(word[1])) != 0;
}

void refuse_unknown_option(const CLI::App& verb, const std::string& said, const std::string& word) {
  std::vector<std::string> known;
  gather_options(verb, known);
  const bool wordy = word.starts_with("--");
  const std::string name = wordy ? word.substr(0, word.find('=')) : word.substr(0, 2);
  if (std::ranges::find(known, name) != known.end()) return;
  std::string hint = did_you_mean(name, known);
  if (hint.find("did you mean") == std::string::npos) hint = fmt::format("; `{} --help` lists those there are", said);
  throw RequestFailure(fmt::format("there is no option '{}'{}", name, hint));
}

/// The verb that was given, as deep as it goes.
const CLI::App& given_verb(const CLI::App& app) {
  const CLI::App* verb = &app;
  for (;;) {
    const auto below = verb->get_subcommands();
    const auto named = std::ranges::find_if(below, [](const CLI::App* next) { return !next->get_name().empty(); });
    if (named == below.end()) return *verb;
    verb = *named;
  }
}

std::string path_of(const CLI::App& verb) {
  std::string path;
  for (const CLI::App* at = &verb; at != nullptr; at = at->get_parent()) path = at->get_name() + (path.empty() ? "" : " ") + path;
  return path;
}

/// Of the group from which one option must be given.
std::string names_of_choice(const CLI::App& verb) {
  std::vector<std::string> names;
  for (const CLI::App* group : verb.get_subcommands({})) {
    if (group->get_name().empty()) gather_options(*group, names);
  }
  std::erase_if(names, [](const std::string& name) { return name == "--help" || name == "-h"; });
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string missing_sentence(const std::string& what, const CLI::App& verb) {
  if (what.find("option from [") != std::string::npos) {
    return fmt::format("say {} of {}", what.find("were given") != std::string::npos ? "only one" : "one", names_of_choice(verb));
  }
  const auto below = verbs_below(verb);
  if (!below.empty()) return fmt::format("say what to do: {}", fmt::join(below, ", "));
  const std::string name = what.substr(0, what.find(" is required"));
  return name.starts_with("-") ? name + " is needed" : fmt::format("the {} is missing", name);
}

std::string mismatch_sentence(const std::string& what, const CLI::App& verb) {
  const std::string name = what.substr(0, what.find(':'));
  const CLI::Option* option = verb.get_option_no_throw(name);
  if (what.find("At Most 1 ") != std::string::npos) return name + " can be given once only";
  if (option == nullptr) return name + ": the number of values does not fit";
  if (what.find("At Most") != std::string::npos) return fmt::format("{} takes {} values at the most", name, option->get_expected_max());
  if (option->get_expected_min() > 1) return fmt::format("{} wants {} values at the least", name, option->get_expected_min());
  return fmt::format("{} wants a value ({})", name, option->get_type_name());
}

}  // namespace

CLI::Validator whole_number(std::int64_t low, std::int64_t high) { return validator(check_whole_number(low, high)); }

CLI::Validator number_between(double low, double high) { return validator(check_number_between(low, high)); }

void check_kinds_of_values(CLI::App& app) {
  for (CLI::Option* option : app.get_options()) {
    if (ValueCheck check = check_for_kind(option->get_type_name())) option->check(validator(std::move(check)));
  }
  for (CLI::App* verb : app.get_subcommands({})) check_kinds_of_values(*verb);
}

void use_plain_help(CLI::App& app) {
  const auto plain = std::make_shared<PlainHelp>();
  plain->label("Positionals", "What it is about");
  plain->label("SUBCOMMAND", "VERB");
  const auto give = [&plain](const auto& self, CLI::App& verb) -> void {
    verb.formatter(plain);
    for (CLI::App* below : verb.get_subcommands({})) {
      if (!below->get_name().empty()) below->group("Verbs");
      self(self, *below);
    }
  };
  give(give, app);
}

std::string numbers_there_are() {
  constexpr std::size_t kHelpWidth = 98;  // and 2 of indent
  std::vector<std::string_view> ids;
  for (const auto& number : shot::numbers()) ids.push_back(number.id);
  return wrapped(fmt::format("Numbers: {}.", fmt::join(ids, ", ")), kHelpWidth, 2);
}

void refuse_unknown_words(const CLI::App& app, const std::vector<std::string>& arguments) {
  const CLI::App* verb = &app;
  std::string said = "ringfall";
  std::size_t k = 0;
  for (auto known = verbs_below(app); !known.empty(); known = verbs_below(*verb)) {
    if (k == arguments.size()) {
      throw RequestFailure(fmt::format("say what to do: {}; `{} --help` has more", fmt::join(known, ", "), said));
    }
    const std::string& word = arguments[k];
    if (looks_like_option(word)) break;
    if (std::ranges::find(known, word) == known.end()) {
      const std::string hint = did_you_mean(word, known);
      throw RequestFailure(fmt::format("there is no verb '{}{}'{}{}", k == 0 ? "" : said.substr(said.find(' ') + 1) + " ", word, hint,
                                       hint.ends_with('?') ? "" : fmt::format("; `{} --help` says what they do", said)));
    }
    verb = verb->get_subcommand(word);
    said += " " + word;
    ++k;
  }
  for (; k < arguments.size() && arguments[k] != "--"; ++k) {
    if (looks_like_option(arguments[k])) refuse_unknown_option(*verb, said, arguments[k]);
  }
}

std::string sentence_of(const CLI::ParseError& stop, const CLI::App& app) {
  const CLI::App& verb = given_verb(app);
  const std::string what = stop.what();
  const std::string kind = stop.get_name();
  std::string said = what;
  const auto around = [&what](const char* middle) {
    const auto at = what.find(middle);
    return std::pair(what.substr(0, at), at == std::string::npos ? "" : what.substr(at + std::string(middle).size()));
  };
  if (kind == "RequiredError") said = missing_sentence(what, verb);
  if (kind == "ArgumentMismatch") said = mismatch_sentence(what, verb);
  if (kind == "ExcludesError") said = fmt::format("{} and {} can't both be given", around(" excludes ").first, around(" excludes ").second);
  if (kind == "RequiresError") said = fmt::format("{} goes with {}, which is not given", around(" requires ").first, around(" requires ").second);
  // This kind goes by the verb's name.
  if (what.find("not expected: ") != std::string::npos) said = fmt::format("'{}' is too much here", around("not expected: ").second);
  if (kind == "ConversionError") said = around("Could not convert: ").second + ": this can't be understood";
  return fmt::format("{}; `{} --help` has more", said, path_of(verb));
}

}  // namespace ringfall::terminal
