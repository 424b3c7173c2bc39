// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "logbook/logbook.h"

namespace ringfall::logbook {

/// What an export holds.
struct Exported {
  std::size_t shots = 0;
  std::size_t files = 0;
  bool stopped = false;  ///< and what was written is taken away again
  std::vector<std::int64_t> lost = {};  ///< ids of shots left out because the file is damaged under their sound
};

/// Writes everything a logbook holds as open files into a new folder: tables/NAME.csv (one a table, RFC 4180, every value
/// exact), sounds/shot-N.flac or .wav (the very bytes kept), logbook.csv (version), shots.csv (one line a shot for a
/// spreadsheet, not read back), README.txt. Of a damaged file it writes what can be read, without the shots lost, what hangs on
/// them and shots.csv. `go_on` is told the share done, 0 .. 1, and may stop it. LogbookFailure: more than sound is damaged.
/// FileFailure: the folder holds something already, or can't be written. Definition: docs/logbook.md. Tested: logbook.Export.*
Exported export_folder(const Logbook& logbook, const std::string& folder, const std::function<bool(double)>& go_on = {});

/// Makes a logbook at `path` from such a folder, value for value; an export of an older version is brought to the present one.
/// LogbookFailure: the file exists, a table breaks a rule of the logbook. FileFailure: the folder is no export or lacks a file.
/// No link in the folder is followed. `whole` is shown the logbook before it gets its name, and refuses it by throwing.
void import_folder(const std::string& folder, const std::string& path, const std::function<void(const Logbook&)>& whole = {});

}  // namespace ringfall::logbook
