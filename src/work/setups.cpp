// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/setups.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "base/nearest.h"

namespace ringfall::work {
namespace {

char small_letter(char letter) { return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter; }

bool same_but_for_capitals(const std::string& a, const std::string& b) {
  return std::ranges::equal(a, b, {}, small_letter, small_letter);
}

}  // namespace

std::vector<std::string> setup_names(const logbook::Logbook& book, const std::string& bow) {
  std::vector<std::string> names;
  for (const auto& setup : book.setups(bow)) names.push_back(setup.name);
  return names;
}

bool is_to_be_made(const logbook::Logbook& book, const std::string& bow, const std::string& name, NewSetUp allowed) {
  const auto names = setup_names(book, bow);
  if (std::ranges::find(names, name) != names.end()) return false;
  for (const auto& there : names) {
    if (!same_but_for_capitals(there, name)) continue;
    throw RequestFailure(fmt::format("there is no set-up '{}', but '{}', which differs in capitals only; write it so, or give another name",
                                     name, there));
  }
  if (allowed == NewSetUp::meant) return true;
  const std::string hint = did_you_mean(name, names);
  const bool like_one = hint.ends_with('?');
  if (allowed == NewSetUp::when_unlike && !like_one) return true;
  throw RequestFailure(fmt::format("there is no set-up '{}' yet{}{} it is a new one, say so with --new", name, hint, like_one ? " If" : "; if"));
}

}  // namespace ringfall::work
