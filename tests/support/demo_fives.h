// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "intake/demo_evening.h"

namespace ringfall {

/// The demo evening's first six blocks with five shots each: two more of the same set-up's block in the second half, whose order is the same.
inline std::vector<intake::DemoBlock> five_shot_blocks() {
  auto blocks = intake::demo_blocks();
  for (std::size_t k = 0; k < 6; ++k) {
    blocks[k].shots.insert(blocks[k].shots.end(), blocks[k + 6].shots.begin(), blocks[k + 6].shots.begin() + 2);
  }
  blocks.resize(6);
  return blocks;
}

}  // namespace ringfall
