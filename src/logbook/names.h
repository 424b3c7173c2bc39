// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ringfall::logbook {

/// A name can be typed again and stands on one line. RequestFailure: it is empty or blank, or holds line breaks or other control
/// characters; `what` is what is named ("bow", "set-up"). Tested: logbook.Names.*
void need_name(const std::string& name, const char* what);

}  // namespace ringfall::logbook
