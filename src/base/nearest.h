// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace ringfall {

/// Help after a wrong name: "; did you mean 'hum'?" when one of `names` is near (edit distance at most a third of its
/// length), else "; there are: a, b, c", or "; there is none".
std::string did_you_mean(const std::string& wrong, const std::vector<std::string>& names);

}  // namespace ringfall
