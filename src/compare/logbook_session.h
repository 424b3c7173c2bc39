// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "compare/session.h"
#include "logbook/logbook.h"

namespace ringfall::compare {

/// A logbook's blocks as a session to compare. Dropped blocks stay in it, marked; dropped shots and shots not measured yet are left
/// out and named in SessionBlock::left_out. Of several comments on a shot the last rating counts and all words stay.
Session logbook_session(const logbook::Logbook& logbook);

}  // namespace ringfall::compare
