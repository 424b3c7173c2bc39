// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::logbook {

/// From version 3 to 4: how warm the air was may be left unsaid. Until now an unsaid temperature was kept as 20 C, and nothing tells
/// it from one that was said: it stays. The column is made anew and takes the old one's name, so that the table keeps its rows,
/// references and triggers (ALTER TABLE DROP COLUMN: SQLite 3.35).
inline constexpr const char* kSchema4 = R"sql(
ALTER TABLE session ADD COLUMN said_temperature_c REAL CHECK (said_temperature_c BETWEEN -40 AND 60);
UPDATE session SET said_temperature_c = temperature_c;
ALTER TABLE session DROP COLUMN temperature_c;
ALTER TABLE session RENAME COLUMN said_temperature_c TO temperature_c;
)sql";

}  // namespace ringfall::logbook
