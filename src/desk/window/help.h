// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/parts/stage.h"

namespace ringfall::desk {

/// All keys on one sheet, over everything else.
void draw_help(const Stage& stage);

}  // namespace ringfall::desk
