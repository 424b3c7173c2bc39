// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs about bows and set-ups.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "base/failure.h"
#include "base/local_time.h"
#include "base/nearest.h"
#include "logbook/earlier.h"
#include "report/entry_text.h"
#include "terminal/exit_status.h"
#include "terminal/list_json.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"
#include "terminal/setup_text.h"
#include "work/changes.h"
#include "work/setups.h"

namespace ringfall::terminal {

using work::apply;

namespace {

/// The entry of this name, or RequestFailure with the nearest one.
template <typename Entry>
Entry named(const std::vector<Entry>& entries, const std::string& name, const char* what) {
  const auto found = std::ranges::find(entries, name, &Entry::name);
  if (found != entries.end()) return *found;
  std::vector<std::string> names;
  for (const auto& entry : entries) names.push_back(entry.name);
  throw RequestFailure(fmt::format("there is no {} '{}'{}", what, name, did_you_mean(name, names)));
}

template <typename Entry>
void refuse_taken(const std::vector<Entry>& entries, const std::string& name, const char* what) {
  if (std::ranges::find(entries, name, &Entry::name) == entries.end()) return;
  throw RequestFailure(fmt::format("the {} '{}' is there already; change it with `ringfall {} change`", what, name, what));
}

/// A new name, remark or baseline is no other state.
bool says_something(const FittingsChange& change) {
  return change.draw_weight_n || change.brace_height_m || change.arrow_mass_kg || change.string || change.silencers || change.parts;
}

int print_lines(const std::string& text) {
  put(text);
  return kDone;
}

}  // namespace

int bow(const BowRequest& request) {
  logbook::Logbook book(request.logbook);
  const auto bows = book.bows();
  if (request.task == BowRequest::Task::list) {
    if (request.json) return print_lines(bows_json(bows));
    std::string text;
    for (const auto& entry : bows) {
      text += bow_line(entry, request.units);
      for (const auto& state : logbook::earlier_states(book, entry.name)) {
        text += fmt::format("    until {}: {}\n", local_time_text(state.until), report::bow_text({"", state.fittings, ""}, request.units));
      }
    }
    return print_lines(text);
  }
  const bool change = request.task == BowRequest::Task::change;
  if (!change) refuse_taken(bows, request.name, "bow");
  logbook::Bow entry = change ? named(bows, request.name, "bow") : logbook::Bow{request.name};
  apply(request.new_name, entry.name);
  apply(request.fittings, entry.fittings);
  apply(request.note, entry.note);
  if (change) {
    logbook::Transaction together(book.database());
    if (!request.always && says_something(request.fittings)) logbook::keep_state(book, request.since.value_or(""), request.name);
    book.change_bow(request.name, entry);
    together.commit();
  } else {
    book.add_bow(entry);
  }
  return print_lines(bow_line(entry, request.units));
}

int setup(const SetUpRequest& request) {
  logbook::Logbook book(request.logbook);
  const std::string bow_name = request.bow.empty() ? book.conditions().bow : request.bow;
  if (request.task == SetUpRequest::Task::list) {
    const auto entries = request.bow.empty() ? book.setups() : book.setups(bow_name);
    if (request.json) return print_lines(setups_json(entries));
    std::string text;
    for (const auto& entry : entries) text += setup_line(entry, book.bows().size() > 1, request.units);
    return print_lines(text.empty() ? "there is no set-up yet; make one with `ringfall set-up add`\n" : text);
  }
  if (request.task == SetUpRequest::Task::remove) {
    book.remove_setup(bow_name, request.name);
    return print_lines(fmt::format("the set-up '{}' is taken away\n", request.name));
  }
  const bool change = request.task == SetUpRequest::Task::change;
  const auto entries = book.setups(bow_name);
  if (!change && !work::is_to_be_made(book, bow_name, request.name, work::NewSetUp::meant)) {
    throw RequestFailure(fmt::format("the set-up '{}' is there already; change it with `ringfall set-up change`", request.name));
  }
  logbook::SetUp entry = change ? named(entries, request.name, "set-up") : logbook::SetUp{request.name, "", false, std::nullopt};
  entry.bow = bow_name;
  apply(request.new_name, entry.name);
  apply(request.changed, entry.changed);
  apply(request.added_mass_kg, entry.added_mass_kg);
  apply(request.fittings, entry.fittings);
  apply(request.note, entry.note);
  if (request.baseline) entry.baseline = true;
  if (change) {
    logbook::Transaction together(book.database());
    if (!request.always && (request.changed || request.added_mass_kg || says_something(request.fittings))) {
      logbook::keep_state(book, request.since.value_or(""), bow_name, request.name);
    }
    book.change_setup(request.name, entry);
    together.commit();
  } else {
    book.add_setup(entry);
  }
  return print_lines(setup_line(named(book.setups(bow_name), entry.name, "set-up"), false, request.units));
}

}  // namespace ringfall::terminal
