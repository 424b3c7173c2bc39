// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "hard_ground/scenes.h"

namespace ringfall::hard_ground {

/// A row of the table: scenes of one kind, and the finding that must be said ("" = clean: none of fault_codes()).
struct Kind {
  std::string name;
  std::string expected;
  std::function<Scene(std::uint64_t seed)> make;
};

const std::vector<Kind>& kinds();
const std::vector<std::string>& fault_codes();

}  // namespace ringfall::hard_ground
