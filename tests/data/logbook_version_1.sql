-- SPDX-License-Identifier: GPL-3.0-or-later
-- A logbook of version 1 as the program of that time made it, with made-up rows. Never edited: later programs must read it.
PRAGMA application_id = 1380346978;
PRAGMA user_version = 1;
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

INSERT INTO bow VALUES (1, 'made-up bow');
INSERT INTO setup VALUES (1, 1, 'bare', '', 1, NULL);
INSERT INTO setup VALUES (2, 1, 'damper', '30 g below the grip', 0, 0.03);
INSERT INTO session VALUES (1, '2026-01-01T10:00:00Z', 'made-up hall', 18.288, 15.0, 'made-up microphone', 118.0);
INSERT INTO block VALUES (1, 1, 1, 1, 'a.wav', 48000.0, 'dry', NULL);
INSERT INTO block VALUES (2, 1, 2, 2, 'b.wav', 44100.0, '', 'gusts');
INSERT INTO shot VALUES (1, 1, 1, 2.5, 'flac', x'00017FFF80', 81600, 120000, 0.25, 136600, NULL, 2.9, '0.1', NULL);
INSERT INTO shot VALUES (2, 1, 2, 6.5, 'wav', x'0102', 273600, 312000, 0.0, NULL, NULL, NULL, NULL, 'plucked');
INSERT INTO shot VALUES (5, 2, 1, 3.25, 'flac', x'030405', 108045, 143325, 0.5, NULL, 200000, 3.7, '0.1', NULL);
INSERT INTO number VALUES (1, 'hum', 3.3333333333333335);
INSERT INTO number VALUES (1, 'exposure_db', -31.25);
INSERT INTO number VALUES (1, 'a_number_of_no_known_name', 1.0);
INSERT INTO tone VALUES (1, 1, 95.123456789, 61.0, 0.4, 0.01, 'hum');
INSERT INTO finding VALUES (1, 1, NULL, 'made_up', 'note', '', 'A made-up remark on a block.');
INSERT INTO finding VALUES (2, NULL, 1, 'made_up', 'void', 'levels ping', 'A made-up remark on a shot.');
INSERT INTO comment VALUES (1, 1, '2026-01-01T10:05:00Z', 7.0, 0.0, NULL, NULL, 'it''s "tinny"');
INSERT INTO comment VALUES (2, 5, '2026-01-01T10:06:00Z', NULL, NULL, NULL, 8.0, '');
