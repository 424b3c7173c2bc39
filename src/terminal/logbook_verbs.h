// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "terminal/logbook_requests.h"

namespace ringfall::terminal {

/// The verbs of the logbook; as in verbs.h each returns the exit status.
int start(const StartRequest& request);
int session(const SessionRequest& request);
int bow(const BowRequest& request);
int setup(const SetUpRequest& request);
int block(const BlockRequest& request);
int add(const AddRequest& request);
int list(const ListRequest& request);
int show(const ShowRequest& request);
int comment(const CommentRequest& request);
int drop(const DropRequest& request);
int correct(const CorrectRequest& request);
int copy(const CopyRequest& request);
int check_logbook(const CheckRequest& request);
int export_logbook(const ExportRequest& request);
int import_logbook(const ImportRequest& request);
int remeasure(const RemeasureRequest& request);

/// The one that was asked for.
int logbook_verb(const LogbookRequest& request);

}  // namespace ringfall::terminal
