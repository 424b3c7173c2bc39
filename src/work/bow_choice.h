// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "compare/logbook_session.h"

namespace ringfall::work {

/// RequestFailure when there is no such bow; nullopt: no question.
void need_bow(const logbook::Logbook& book, const std::optional<std::string>& bow);

/// The bow whose shots came last; nullopt: none has any that count.
std::optional<std::string> newest_bow(const logbook::Logbook& book);

/// A logbook's session to compare, and what its set-ups are held against.
struct Comparable {
  compare::Session session;
  std::optional<std::string> baseline;
};

/// Of `bow`. Without it: of the only bow that has blocks, or of all when `baseline` says what they are held against ("recurve: bare"; a set-up
/// name that only one bow has will do); else RequestFailure, since a set-up is held against its own bow's baseline. LogbookFailure as
/// compare::logbook_session. Tests: work.BowChoice.*, terminal.TwoBows.*
Comparable comparable(const logbook::Logbook& book, const std::optional<std::string>& bow, const std::optional<std::string>& baseline);

/// `typed` as a set-up of the session is named: its whole name, or without its bow's when no other bow has it. RequestFailure: there is none, or
/// several.
std::string setup_in(const compare::Session& session, const std::string& typed);

}  // namespace ringfall::work
