// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

#include "desk/model/desk.h"

namespace ringfall::desk {

/// Goes through all places in both themes and has a picture of each taken: PLACE-THEME.png in `folder` (which is there). For the
/// documents and for the test of the real window. `frame` draws one frame.
void shoot_places(Desk& desk, const std::function<void()>& frame, const std::string& folder,
                  const std::function<void(const std::string& path)>& take);

}  // namespace ringfall::desk
