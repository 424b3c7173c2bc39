// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "logbook/database.h"

namespace ringfall::logbook {

/// The ids of shots that can't be read to the end of their row, since a page under their sound is damaged or the disk doesn't give
/// it. Nearly all pages of a logbook hold sound, so one bad page mostly takes one shot. Reads all sound. LogbookFailure: not even
/// the list of shots can be read. Tested: logbook.Disk.*
std::vector<std::int64_t> unreadable_shots(const Database& database);

}  // namespace ringfall::logbook
