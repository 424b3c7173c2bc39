// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::logbook {

/// Version 1 of the file, docs/logbook.md. SI units; times of day in UTC, ISO 8601.
inline constexpr const char* kSchema1 = R"sql(
CREATE TABLE bow (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (name <> '')
) STRICT;

CREATE TABLE setup (
  id INTEGER PRIMARY KEY,
  bow INTEGER NOT NULL REFERENCES bow ON DELETE RESTRICT,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  changed TEXT NOT NULL,
  baseline INTEGER NOT NULL CHECK (baseline IN (0, 1)),
  added_mass_kg REAL CHECK (added_mass_kg BETWEEN 0 AND 10)
) STRICT;
CREATE UNIQUE INDEX one_baseline ON setup (bow) WHERE baseline = 1;

CREATE TABLE session (
  id INTEGER PRIMARY KEY,
  started_at TEXT NOT NULL,
  place TEXT NOT NULL,
  distance_m REAL CHECK (distance_m > 0),
  temperature_c REAL NOT NULL CHECK (temperature_c BETWEEN -40 AND 60),
  chain TEXT NOT NULL,
  full_scale_db_spl REAL
) STRICT;

CREATE TABLE block (
  id INTEGER PRIMARY KEY,
  session INTEGER NOT NULL REFERENCES session ON DELETE RESTRICT,
  setup INTEGER NOT NULL REFERENCES setup ON DELETE RESTRICT,
  number INTEGER NOT NULL UNIQUE CHECK (number >= 1),
  file TEXT NOT NULL,
  sample_rate_hz REAL NOT NULL CHECK (sample_rate_hz > 0),
  note TEXT NOT NULL,
  dropped TEXT CHECK (dropped <> '')
) STRICT;
CREATE INDEX block_setup ON block (setup);
CREATE INDEX block_session ON block (session);

CREATE TABLE shot (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  block INTEGER NOT NULL REFERENCES block ON DELETE CASCADE,
  number INTEGER NOT NULL CHECK (number >= 1),
  onset_s REAL NOT NULL,
  coding TEXT NOT NULL CHECK (coding IN ('flac', 'wav')),
  clip BLOB NOT NULL,
  first_sample INTEGER NOT NULL,
  onset_sample INTEGER NOT NULL,
  onset_fraction REAL NOT NULL CHECK (onset_fraction >= 0 AND onset_fraction < 1),
  impact_sample INTEGER,
  next_shot_sample INTEGER,
  tail_end_s REAL,
  analyser TEXT,
  dropped TEXT CHECK (dropped <> ''),
  UNIQUE (block, number)
) STRICT;

CREATE TABLE number (
  shot INTEGER NOT NULL REFERENCES shot ON DELETE CASCADE,
  id TEXT NOT NULL,
  value REAL NOT NULL,
  PRIMARY KEY (shot, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE tone (
  shot INTEGER NOT NULL REFERENCES shot ON DELETE CASCADE,
  rank INTEGER NOT NULL,
  frequency_hz REAL NOT NULL CHECK (frequency_hz > 0),
  level_db REAL NOT NULL,
  ring_time_s REAL NOT NULL,
  damping_ratio REAL NOT NULL,
  family TEXT NOT NULL CHECK (family IN ('hum', 'mid', 'ping')),
  PRIMARY KEY (shot, rank)
) STRICT, WITHOUT ROWID;

CREATE TABLE finding (
  id INTEGER PRIMARY KEY,
  block INTEGER REFERENCES block ON DELETE CASCADE,
  shot INTEGER REFERENCES shot ON DELETE CASCADE,
  code TEXT NOT NULL,
  severity TEXT NOT NULL CHECK (severity IN ('note', 'caution', 'void')),
  voids TEXT NOT NULL,
  sentence TEXT NOT NULL,
  CHECK ((block IS NULL) <> (shot IS NULL))
) STRICT;
CREATE INDEX finding_block ON finding (block);
CREATE INDEX finding_shot ON finding (shot);

CREATE TABLE comment (
  id INTEGER PRIMARY KEY,
  shot INTEGER NOT NULL REFERENCES shot ON DELETE RESTRICT,
  said_at TEXT NOT NULL,
  loud REAL CHECK (loud BETWEEN 0 AND 10),
  hum REAL CHECK (hum BETWEEN 0 AND 10),
  ping REAL CHECK (ping BETWEEN 0 AND 10),
  feel REAL CHECK (feel BETWEEN 0 AND 10),
  words TEXT NOT NULL,
  CHECK (words <> '' OR coalesce(loud, hum, ping, feel) IS NOT NULL)
) STRICT;
CREATE INDEX comment_shot ON comment (shot);
)sql";

}  // namespace ringfall::logbook
