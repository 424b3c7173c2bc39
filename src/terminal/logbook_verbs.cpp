// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {
namespace {

struct RunLogbookVerb {
  int operator()(const StartRequest& request) const { return start(request); }
  int operator()(const SessionRequest& request) const { return session(request); }
  int operator()(const BowRequest& request) const { return bow(request); }
  int operator()(const SetUpRequest& request) const { return setup(request); }
  int operator()(const BlockRequest& request) const { return block(request); }
  int operator()(const AddRequest& request) const { return add(request); }
  int operator()(const ListRequest& request) const { return list(request); }
  int operator()(const ShowRequest& request) const { return show(request); }
  int operator()(const CommentRequest& request) const { return comment(request); }
  int operator()(const DropRequest& request) const { return drop(request); }
  int operator()(const CorrectRequest& request) const { return correct(request); }
  int operator()(const CopyRequest& request) const { return copy(request); }
  int operator()(const CheckRequest& request) const { return check_logbook(request); }
  int operator()(const ExportRequest& request) const { return export_logbook(request); }
  int operator()(const ImportRequest& request) const { return import_logbook(request); }
  int operator()(const RemeasureRequest& request) const { return remeasure(request); }
};

}  // namespace

int logbook_verb(const LogbookRequest& request) { return std::visit(RunLogbookVerb{}, request); }

}  // namespace ringfall::terminal
