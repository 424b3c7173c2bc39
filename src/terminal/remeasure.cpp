// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/text.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"
#include "work/measuring.h"

namespace ringfall::terminal {

int remeasure(const RemeasureRequest& request) {
  logbook::Logbook book(request.logbook);
  const auto done = work::measure_again(book, work::Again::all);
  for (const auto& failed : done.failed) print_error("ringfall: shot {} of block {}: {}\n", failed.shot, failed.block, failed.sentence);
  print_out("{} measured again\n", counted(done.before.size(), "shot"));
  const std::size_t failed = done.failed.size();
  if (failed > 0) print_out("{} could not be and {} as before\n", counted(failed, "shot"), failed == 1 ? "stays" : "stay");
  return failed > 0 ? kUnusable : kDone;
}

}  // namespace ringfall::terminal
