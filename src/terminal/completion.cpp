// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/completion.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <vector>

namespace ringfall::terminal {
namespace {

/// Options of a verb, those of its groups too, and the verbs below it.
void gather(const CLI::App& verb, std::vector<std::string>& options, std::vector<std::string>& verbs) {
  const auto add = [&options](const std::string& name) {
    if (std::ranges::find(options, name) == options.end()) options.push_back(name);
  };
  for (const CLI::Option* option : verb.get_options()) {
    for (const auto& name : option->get_lnames()) add("--" + name);
    for (const auto& name : option->get_snames()) add("-" + name);
  }
  for (const CLI::App* below : verb.get_subcommands({})) {
    if (below->get_name().empty()) {
      gather(*below, options, verbs);
    } else {
      verbs.push_back(below->get_name());
    }
  }
}

/// One line of the script a verb: what was typed so far, the verbs below, the options.
std::string lines_of(const CLI::App& verb, const std::string& path) {
  std::vector<std::string> options;
  std::vector<std::string> verbs;
  gather(verb, options, verbs);
  std::string out = fmt::format("    '{}') verbs='{}' options='{}' ;;\n", path, fmt::join(verbs, " "), fmt::join(options, " "));
  for (const CLI::App* below : verb.get_subcommands({})) {
    if (!below->get_name().empty()) out += lines_of(*below, path + (path.empty() ? "" : " ") + below->get_name());
  }
  return out;
}

constexpr const char* kHead = R"sh(# bash completion of ringfall; load it with: source <(ringfall completion)
_ringfall_words() {
  case "$1" in
)sh";

constexpr const char* kTail = R"sh(    *) return 1 ;;
  esac
}
_ringfall() {
  local word="${COMP_WORDS[COMP_CWORD]}" path='' verbs='' options='' k
  for ((k = 1; k < COMP_CWORD; ++k)); do
    _ringfall_words "${path:+$path }${COMP_WORDS[k]}" || break
    path="${path:+$path }${COMP_WORDS[k]}"
  done
  _ringfall_words "$path"
  COMPREPLY=()
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
  elif [[ -n $verbs ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$verbs" -- "$word")
  fi
}
complete -o default -o bashdefault -F _ringfall ringfall
)sh";

}  // namespace

std::string bash_completion(const CLI::App& app) { return kHead + lines_of(app, "") + kTail; }

}  // namespace ringfall::terminal
