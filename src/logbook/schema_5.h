// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::logbook {

/// From version 4 to 5: who says a finding, and what was on a bow or in a set-up before it was changed.
/// Until now a finding did not say where it came from. Those that only a whole recording showed were of three codes; all others of a
/// shot came from its clip, and measuring it again says them anew. A finding of a block is the recording's.
/// The tables of earlier states begin empty: what was on a bow before its last change was written over until now.
inline constexpr const char* kSchema5 = R"sql(
ALTER TABLE finding ADD COLUMN origin TEXT NOT NULL DEFAULT 'clip' CHECK (origin IN ('clip', 'recording', 'person'));
UPDATE finding SET origin = 'recording' WHERE block IS NOT NULL OR code IN ('wind', 'impact_doubtful', 'sound_lost');

-- What a bow or set-up was like up to a moment; what it is like since the last of them is in its own row. `changed` and
-- `added_mass_kg` are a set-up's.
CREATE TABLE earlier (
  id INTEGER PRIMARY KEY,
  bow INTEGER REFERENCES bow ON DELETE CASCADE,
  setup INTEGER REFERENCES setup ON DELETE CASCADE,
  until TEXT NOT NULL CHECK (until IS strftime('%Y-%m-%dT%H:%M:%SZ', until, '+0 days')),
  draw_weight_n REAL CHECK (draw_weight_n > 0 AND draw_weight_n <= 2000),
  brace_height_m REAL CHECK (brace_height_m > 0 AND brace_height_m <= 1),
  arrow_mass_kg REAL CHECK (arrow_mass_kg > 0 AND arrow_mass_kg <= 1),
  string TEXT NOT NULL,
  silencers TEXT NOT NULL,
  changed TEXT NOT NULL DEFAULT '',
  added_mass_kg REAL CHECK (added_mass_kg BETWEEN 0 AND 10),
  CHECK ((bow IS NULL) <> (setup IS NULL)),
  UNIQUE (bow, until),
  UNIQUE (setup, until)
) STRICT;
CREATE TABLE earlier_part (
  id INTEGER PRIMARY KEY,
  earlier INTEGER NOT NULL REFERENCES earlier ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('mass', 'damper', 'silencer', 'other')),
  what TEXT NOT NULL,
  place TEXT NOT NULL,
  mass_kg REAL CHECK (mass_kg BETWEEN 0 AND 10),
  CHECK (what <> '' OR place <> '' OR mass_kg IS NOT NULL)
) STRICT;
CREATE INDEX earlier_part_earlier ON earlier_part (earlier);
)sql";

}  // namespace ringfall::logbook
