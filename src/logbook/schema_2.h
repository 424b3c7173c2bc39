// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::logbook {

/// From version 1 to 2: several bows and sessions with their facts, parts, comments on blocks, corrections of the finder, and what
/// of a shot is no single number. A table whose rules change is made anew and takes the old one's name (the way of SQLite's
/// documentation, "Making Other Kinds Of Table Schema Changes"); foreign keys rest meanwhile and are checked afterwards.
inline constexpr const char* kSchema2 = R"sql(
ALTER TABLE bow ADD COLUMN draw_weight_n REAL CHECK (draw_weight_n > 0 AND draw_weight_n <= 2000);
ALTER TABLE bow ADD COLUMN brace_height_m REAL CHECK (brace_height_m > 0 AND brace_height_m <= 1);
ALTER TABLE bow ADD COLUMN arrow_mass_kg REAL CHECK (arrow_mass_kg > 0 AND arrow_mass_kg <= 1);
ALTER TABLE bow ADD COLUMN string TEXT NOT NULL DEFAULT '';
ALTER TABLE bow ADD COLUMN silencers TEXT NOT NULL DEFAULT '';
ALTER TABLE bow ADD COLUMN note TEXT NOT NULL DEFAULT '';

CREATE TABLE new_setup (
  id INTEGER PRIMARY KEY,
  bow INTEGER NOT NULL REFERENCES bow ON DELETE RESTRICT,
  name TEXT NOT NULL CHECK (name <> ''),
  changed TEXT NOT NULL,
  baseline INTEGER NOT NULL CHECK (baseline IN (0, 1)),
  added_mass_kg REAL CHECK (added_mass_kg BETWEEN 0 AND 10),
  draw_weight_n REAL CHECK (draw_weight_n > 0 AND draw_weight_n <= 2000),
  brace_height_m REAL CHECK (brace_height_m > 0 AND brace_height_m <= 1),
  arrow_mass_kg REAL CHECK (arrow_mass_kg > 0 AND arrow_mass_kg <= 1),
  string TEXT NOT NULL,
  silencers TEXT NOT NULL,
  note TEXT NOT NULL,
  UNIQUE (bow, name)
) STRICT;
INSERT INTO new_setup SELECT id, bow, name, changed, baseline, added_mass_kg, NULL, NULL, NULL, '', '', '' FROM setup;
DROP TABLE setup;
ALTER TABLE new_setup RENAME TO setup;
CREATE UNIQUE INDEX one_baseline ON setup (bow) WHERE baseline = 1;

CREATE TABLE part (
  id INTEGER PRIMARY KEY,
  bow INTEGER REFERENCES bow ON DELETE CASCADE,
  setup INTEGER REFERENCES setup ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('mass', 'damper', 'silencer', 'other')),
  what TEXT NOT NULL,
  place TEXT NOT NULL,
  mass_kg REAL CHECK (mass_kg BETWEEN 0 AND 10),
  CHECK ((bow IS NULL) <> (setup IS NULL)),
  CHECK (what <> '' OR place <> '' OR mass_kg IS NOT NULL)
) STRICT;
CREATE INDEX part_bow ON part (bow);
CREATE INDEX part_setup ON part (setup);

CREATE TABLE new_session (
  id INTEGER PRIMARY KEY,
  bow INTEGER NOT NULL REFERENCES bow ON DELETE RESTRICT,
  started_at TEXT NOT NULL,
  place TEXT NOT NULL,
  distance_m REAL CHECK (distance_m > 0),
  temperature_c REAL NOT NULL CHECK (temperature_c BETWEEN -40 AND 60),
  humidity_percent REAL CHECK (humidity_percent BETWEEN 0 AND 100),
  chain TEXT NOT NULL,
  microphone TEXT NOT NULL,
  device TEXT NOT NULL,
  full_scale_db_spl REAL,
  check_tone_db REAL,
  blind INTEGER NOT NULL CHECK (blind IN (0, 1)),
  note TEXT NOT NULL
) STRICT;
INSERT INTO new_session SELECT id, (SELECT min(id) FROM bow), started_at, place, distance_m, temperature_c, NULL, chain, '', '',
  full_scale_db_spl, NULL, 0, '' FROM session;
DROP TABLE session;
ALTER TABLE new_session RENAME TO session;
CREATE INDEX session_bow ON session (bow);

ALTER TABLE block ADD COLUMN channel INTEGER CHECK (channel >= 1);
ALTER TABLE shot ADD COLUMN details TEXT;

CREATE TABLE new_comment (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  block INTEGER REFERENCES block ON DELETE RESTRICT,
  shot INTEGER REFERENCES shot ON DELETE RESTRICT,
  said_at TEXT NOT NULL,
  changed_at TEXT,
  blind INTEGER NOT NULL CHECK (blind IN (0, 1)),
  loud REAL CHECK (loud BETWEEN 0 AND 10),
  hum REAL CHECK (hum BETWEEN 0 AND 10),
  ping REAL CHECK (ping BETWEEN 0 AND 10),
  feel REAL CHECK (feel BETWEEN 0 AND 10),
  words TEXT NOT NULL,
  CHECK ((block IS NULL) <> (shot IS NULL)),
  CHECK (words <> '' OR coalesce(loud, hum, ping, feel) IS NOT NULL)
) STRICT;
INSERT INTO new_comment SELECT id, NULL, shot, said_at, NULL, 0, loud, hum, ping, feel, words FROM comment;
DROP TABLE comment;
ALTER TABLE new_comment RENAME TO comment;
CREATE INDEX comment_block ON comment (block);
CREATE INDEX comment_shot ON comment (shot);

CREATE TABLE correction (
  id INTEGER PRIMARY KEY,
  block INTEGER NOT NULL REFERENCES block ON DELETE CASCADE,
  shot INTEGER REFERENCES shot ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('not_a_shot', 'missed_shot', 'moved_edge')),
  found_s REAL,
  edge_s REAL,
  said_at TEXT NOT NULL,
  CHECK (kind = 'missed_shot' OR (shot IS NOT NULL AND found_s IS NOT NULL)),
  CHECK (kind = 'not_a_shot' OR edge_s IS NOT NULL)
) STRICT;
CREATE INDEX correction_block ON correction (block);
CREATE INDEX correction_shot ON correction (shot);
)sql";

}  // namespace ringfall::logbook
