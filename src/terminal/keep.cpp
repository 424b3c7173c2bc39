// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs that look after the file itself.
#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "base/text.h"
#include "compare/logbook_session.h"
#include "intake/kept_clip.h"
#include "logbook/export.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"

namespace ringfall::terminal {

int copy(const CopyRequest& request) {
  logbook::Logbook(request.logbook).copy_to(request.copy);
  std::error_code ignored;
  const auto bytes = std::filesystem::file_size(request.copy, ignored);
  print_out("{} is a whole copy, {:.1f} MB\n", request.copy, static_cast<double>(bytes) / 1e6);
  return kDone;
}

int export_logbook(const ExportRequest& request) {
  const logbook::Logbook book(request.logbook);
  const auto exported = logbook::export_folder(book, request.folder);
  if (!exported.lost.empty()) {
    print_out("The logbook is damaged: {} can't be read and {} left out (named in README.txt). {} in {} are in {}; `ringfall import` makes "
               "a logbook of them\n", counted(exported.lost.size(), "shot"), exported.lost.size() == 1 ? "is" : "are",
               counted(exported.shots, "shot"), counted(exported.files, "file"), request.folder);
    return kNotMeasured;
  }
  print_out("{} in {} are in {}; shots.csv is for a spreadsheet\n", counted(exported.shots, "shot"), counted(exported.files, "file"),
             request.folder);
  // An export leaves nothing out, or it could not be imported again without loss.
  if (const auto hidden = compare::hidden_numbers(book.blocks(), book.path())) {
    print_out("Don't look into it yet: the files show what the blind session hides until there are comments.\n");
  }
  return kDone;
}

int import_logbook(const ImportRequest& request) {
  logbook::import_folder(request.folder, request.logbook, intake::need_whole_sounds);
  print_out("{} is a logbook again\n", request.logbook);
  return kDone;
}

}  // namespace ringfall::terminal
