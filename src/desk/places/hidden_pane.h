// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/model/desk.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// In place of what a blind session must not show yet: how many shots wait for words, and the way to the first of them. False, and
/// nothing drawn, when none does.
bool draw_hidden(Desk& desk, const Stage& stage, ImVec2 size);

}  // namespace ringfall::desk
