// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/document.h"
#include "report/session_report.h"

namespace ringfall::report {

/// The document's sections in their order; one without pieces has nothing to say and is left out.

/// One picture each for quiet, hum, ping, and the number asked for: every shot a dot.
Drawings answer_pictures(const SessionReport& report);
/// The first page.
std::vector<Piece> opening_part(const SessionReport& report);

Section setups_part(const SessionReport& report);
Section shots_part(const SessionReport& report);        ///< the differences
Section numbers_part(const SessionReport& report);
Section sure_part(const SessionReport& report);         ///< order, drift, what was left out, wild shots
Section sound_part(const SessionReport& report);        ///< decays, tails, spectrograms, tones
Section listening_part(const SessionReport& report);
Section words_part(const SessionReport& report);
Section doubts_part(const SessionReport& report);
Section limits_part(const SessionReport& report);
Section chain_part(const SessionReport& report);
Section cautions_part();

}  // namespace ringfall::report
