// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "report/session_report.h"

namespace ringfall::report {

/// The page's parts in their order, each a whole section or nothing when there is nothing to say.

std::string setups_part(const SessionReport& report);
std::string shots_part(const SessionReport& report);        ///< dots and differences
std::string numbers_part(const SessionReport& report);
std::string sound_part(const SessionReport& report);        ///< decays, tails, spectrograms, tones
std::string listening_part(const SessionReport& report);
std::string words_part(const SessionReport& report);
std::string doubts_part(const SessionReport& report);
std::string limits_part(const SessionReport& report);
std::string chain_part(const SessionReport& report);
std::string cautions_part();

}  // namespace ringfall::report
