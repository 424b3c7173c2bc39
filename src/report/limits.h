// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace ringfall::report {

/// What a comparison by sound can't say. `calibrated`: levels are re 20 uPa. `air_assumed`: an arrow speed is reckoned for air of 20 C, since
/// nobody said how warm it was.
std::vector<std::string> limits(bool calibrated, bool air_assumed);

/// How the numbers were made, in short, with the version.
std::vector<std::string> method();

/// What matters more than any number.
std::vector<std::string> cautions();

}  // namespace ringfall::report
