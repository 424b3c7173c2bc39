// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace ringfall::compare {

/// What to do besides counting arrows; the same for every plan. Common practice, no source, unless a sentence says otherwise.
/// Before, during and after, in order.
std::vector<std::string> checklist();
/// Where the microphone goes and what it costs to be careless.
std::vector<std::string> microphone_placing();
/// Safety first.
std::vector<std::string> shooting_cautions();

}  // namespace ringfall::compare
