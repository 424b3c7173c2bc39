-- SPDX-License-Identifier: GPL-3.0-or-later
-- A logbook of version 5 as the program of that time made it, with made-up rows. Never edited: later programs must read it.
PRAGMA application_id = 1380346978;
PRAGMA foreign_keys = OFF;
PRAGMA user_version = 5;
CREATE TABLE block (
  id INTEGER PRIMARY KEY,
  session INTEGER NOT NULL REFERENCES session ON DELETE RESTRICT,
  setup INTEGER NOT NULL REFERENCES setup ON DELETE RESTRICT,
  number INTEGER NOT NULL UNIQUE CHECK (number >= 1),
  file TEXT NOT NULL,
  sample_rate_hz REAL NOT NULL CHECK (sample_rate_hz > 0),
  note TEXT NOT NULL,
  dropped TEXT CHECK (dropped <> '')
, channel INTEGER CHECK (channel >= 1)) STRICT;
INSERT INTO "block" VALUES(1,1,1,1,'a.wav',48000.0,'dry',NULL,2);
INSERT INTO "block" VALUES(2,1,2,2,'b.wav',44100.0,'','gusts',NULL);
CREATE TABLE bow (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (name <> '')
, draw_weight_n REAL CHECK (draw_weight_n > 0 AND draw_weight_n <= 2000), brace_height_m REAL CHECK (brace_height_m > 0 AND brace_height_m <= 1), arrow_mass_kg REAL CHECK (arrow_mass_kg > 0 AND arrow_mass_kg <= 1), string TEXT NOT NULL DEFAULT '', silencers TEXT NOT NULL DEFAULT '', note TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "bow" VALUES(1,'made-up bow',177.92886460184,0.2159,NULL,'18 strands','','lent');
CREATE TABLE "comment" (
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
INSERT INTO "comment" VALUES(1,NULL,1,'2026-01-01T10:05:00Z',NULL,0,7.0,0.0,NULL,NULL,'it''s "tinny"');
INSERT INTO "comment" VALUES(2,NULL,5,'2026-01-01T10:06:00Z',NULL,0,NULL,NULL,NULL,8.0,'');
INSERT INTO "comment" VALUES(4,2,NULL,'2026-01-01T10:07:00Z','2026-01-01T10:08:00Z',0,NULL,2.0,NULL,NULL,'all alike');
CREATE TABLE correction (
  id INTEGER PRIMARY KEY,
  block INTEGER NOT NULL REFERENCES block ON DELETE CASCADE,
  shot INTEGER REFERENCES shot ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('not_a_shot', 'missed_shot', 'moved_edge')),
  found_s REAL,
  edge_s REAL,
  said_at TEXT NOT NULL, dropped_before TEXT CHECK (dropped_before <> ''),
  CHECK (kind = 'missed_shot' OR (shot IS NOT NULL AND found_s IS NOT NULL)),
  CHECK (kind = 'not_a_shot' OR edge_s IS NOT NULL)
) STRICT;
INSERT INTO "correction" VALUES(1,1,2,'not_a_shot',6.5,NULL,'2026-01-01T10:09:00Z','arm hit');
INSERT INTO "correction" VALUES(2,2,5,'moved_edge',3.2,3.25,'2026-01-01T10:10:00Z',NULL);
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
INSERT INTO "earlier" VALUES(1,1,NULL,'2025-12-01T09:00:00Z',160.25,0.21,NULL,'16 strands','','',NULL);
INSERT INTO "earlier" VALUES(2,NULL,2,'2025-12-24T00:00:00Z',NULL,NULL,NULL,'','','20 g below the grip',0.02);
CREATE TABLE earlier_part (
  id INTEGER PRIMARY KEY,
  earlier INTEGER NOT NULL REFERENCES earlier ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('mass', 'damper', 'silencer', 'other')),
  what TEXT NOT NULL,
  place TEXT NOT NULL,
  mass_kg REAL CHECK (mass_kg BETWEEN 0 AND 10),
  CHECK (what <> '' OR place <> '' OR mass_kg IS NOT NULL)
) STRICT;
INSERT INTO "earlier_part" VALUES(1,1,'silencer','','on the string',0.004);
CREATE TABLE finding (
  id INTEGER PRIMARY KEY,
  block INTEGER REFERENCES block ON DELETE CASCADE,
  shot INTEGER REFERENCES shot ON DELETE CASCADE,
  code TEXT NOT NULL,
  severity TEXT NOT NULL CHECK (severity IN ('note', 'caution', 'void')),
  voids TEXT NOT NULL,
  sentence TEXT NOT NULL, origin TEXT NOT NULL DEFAULT 'clip' CHECK (origin IN ('clip', 'recording', 'person')),
  CHECK ((block IS NULL) <> (shot IS NULL))
) STRICT;
INSERT INTO "finding" VALUES(1,1,NULL,'made_up','note','','A made-up remark on a block.','recording');
INSERT INTO "finding" VALUES(2,NULL,1,'made_up','void','levels ping','A made-up remark on a shot.','clip');
INSERT INTO "finding" VALUES(3,NULL,1,'wind','caution','hum levels','A made-up remark of the whole recording.','recording');
CREATE TABLE number (
  shot INTEGER NOT NULL REFERENCES shot ON DELETE CASCADE,
  id TEXT NOT NULL,
  value REAL NOT NULL,
  PRIMARY KEY (shot, id)
) STRICT, WITHOUT ROWID;
INSERT INTO "number" VALUES(1,'a_number_of_no_known_name',1.0);
INSERT INTO "number" VALUES(1,'exposure_db',-31.25);
INSERT INTO "number" VALUES(1,'hum',3.33333333333333348136e+00);
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
INSERT INTO "part" VALUES(1,1,NULL,'mass','','front',0.18);
INSERT INTO "part" VALUES(2,NULL,2,'damper','rubber','upper limb',0.012);
CREATE TABLE "session" (
  id INTEGER PRIMARY KEY,
  bow INTEGER NOT NULL REFERENCES bow ON DELETE RESTRICT,
  started_at TEXT NOT NULL,
  place TEXT NOT NULL,
  distance_m REAL CHECK (distance_m > 0),
  humidity_percent REAL CHECK (humidity_percent BETWEEN 0 AND 100),
  chain TEXT NOT NULL,
  microphone TEXT NOT NULL,
  device TEXT NOT NULL,
  full_scale_db_spl REAL,
  check_tone_db REAL,
  blind INTEGER NOT NULL CHECK (blind IN (0, 1)),
  note TEXT NOT NULL
, temperature_c REAL CHECK (temperature_c BETWEEN -40 AND 60)) STRICT;
INSERT INTO "session" VALUES(1,1,'2026-01-01T10:00:00Z','made-up hall',18.288,55.5,'made-up microphone','made-up','',118.0,-23.5,0,'rain',NULL);
CREATE TABLE "setup" (
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
INSERT INTO "setup" VALUES(1,1,'bare','',1,NULL,NULL,NULL,NULL,'','','');
INSERT INTO "setup" VALUES(2,1,'damper','30 g below the grip',0,0.03,NULL,NULL,0.02669715,'','wool','');
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
  dropped TEXT CHECK (dropped <> ''), details TEXT, covered INTEGER NOT NULL DEFAULT 0 CHECK (covered IN (0, 1)),
  UNIQUE (block, number)
) STRICT;
INSERT INTO "shot" VALUES(1,1,1,2.5,'flac',X'00017FFF80',81600,120000,0.25,136600,NULL,2.9,'0.1',NULL,'{"hits":[{"lag_s":0.0,"level_db":-3.25}],"bands":[],"buzz":{"modulation_db":12.5,"rate_hz":96.0}}',0);
INSERT INTO "shot" VALUES(2,1,2,6.5,'wav',X'0102',273600,312000,0.0,NULL,NULL,NULL,NULL,'plucked',NULL,1);
INSERT INTO "shot" VALUES(5,2,1,3.25,'flac',X'030405',108045,143325,0.5,NULL,200000,3.7,'0.1',NULL,NULL,0);
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
INSERT INTO "tone" VALUES(1,1,95.123456789,61.0,0.4,0.01,'hum');
CREATE INDEX block_setup ON block (setup);
CREATE INDEX block_session ON block (session);
CREATE INDEX finding_block ON finding (block);
CREATE INDEX finding_shot ON finding (shot);
CREATE UNIQUE INDEX one_baseline ON setup (bow) WHERE baseline = 1;
CREATE INDEX part_bow ON part (bow);
CREATE INDEX part_setup ON part (setup);
CREATE INDEX session_bow ON session (bow);
CREATE INDEX comment_block ON comment (block);
CREATE INDEX comment_shot ON comment (shot);
CREATE INDEX correction_block ON correction (block);
CREATE INDEX correction_shot ON correction (shot);
CREATE TRIGGER comment_uncovers AFTER INSERT ON comment BEGIN
  UPDATE shot SET covered = 0 WHERE covered AND (id = NEW.shot OR block = NEW.block);
END;
CREATE TRIGGER seeing_session_uncovers AFTER UPDATE OF blind ON session WHEN NOT NEW.blind BEGIN
  UPDATE shot SET covered = 0 WHERE covered AND block IN (SELECT id FROM block WHERE session = NEW.id);
END;
CREATE TRIGGER block_of_one_bow AFTER INSERT ON block
WHEN (SELECT bow FROM setup WHERE id = NEW.setup) <> (SELECT bow FROM session WHERE id = NEW.session) BEGIN
  SELECT raise(ABORT, 'the set-up of a block belongs to another bow');
END;
CREATE TRIGGER changed_block_of_one_bow AFTER UPDATE OF setup, session ON block
WHEN (SELECT bow FROM setup WHERE id = NEW.setup) <> (SELECT bow FROM session WHERE id = NEW.session) BEGIN
  SELECT raise(ABORT, 'the set-up of a block belongs to another bow');
END;
CREATE TRIGGER session_of_one_bow AFTER INSERT ON session
WHEN EXISTS (SELECT 1 FROM block JOIN setup ON setup.id = block.setup WHERE block.session = NEW.id AND setup.bow <> NEW.bow) BEGIN
  SELECT raise(ABORT, 'the set-up of a block belongs to another bow');
END;
CREATE TRIGGER changed_session_of_one_bow AFTER UPDATE OF bow ON session
WHEN EXISTS (SELECT 1 FROM block JOIN setup ON setup.id = block.setup WHERE block.session = NEW.id AND setup.bow <> NEW.bow) BEGIN
  SELECT raise(ABORT, 'the set-up of a block belongs to another bow');
END;
CREATE TRIGGER setup_of_one_bow AFTER INSERT ON setup
WHEN EXISTS (SELECT 1 FROM block JOIN session ON session.id = block.session WHERE block.setup = NEW.id AND session.bow <> NEW.bow) BEGIN
  SELECT raise(ABORT, 'the set-up of a block belongs to another bow');
END;
CREATE TRIGGER changed_setup_of_one_bow AFTER UPDATE OF bow ON setup
WHEN EXISTS (SELECT 1 FROM block JOIN session ON session.id = block.session WHERE block.setup = NEW.id AND session.bow <> NEW.bow) BEGIN
  SELECT raise(ABORT, 'the set-up of a block belongs to another bow');
END;
CREATE TRIGGER session_time AFTER INSERT ON session
WHEN NEW.started_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.started_at, '+0 days') BEGIN
  SELECT raise(ABORT, 'a time is not like 2026-01-31T18:00:00Z');
END;
CREATE TRIGGER comment_time AFTER INSERT ON comment
WHEN NEW.said_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.said_at, '+0 days')
  OR NEW.changed_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.changed_at, '+0 days') BEGIN
  SELECT raise(ABORT, 'a time is not like 2026-01-31T18:00:00Z');
END;
CREATE TRIGGER correction_time AFTER INSERT ON correction
WHEN NEW.said_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.said_at, '+0 days') BEGIN
  SELECT raise(ABORT, 'a time is not like 2026-01-31T18:00:00Z');
END;
CREATE TRIGGER changed_session_time AFTER UPDATE OF started_at ON session
WHEN NEW.started_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.started_at, '+0 days') BEGIN
  SELECT raise(ABORT, 'a time is not like 2026-01-31T18:00:00Z');
END;
CREATE TRIGGER changed_comment_time AFTER UPDATE OF said_at, changed_at ON comment
WHEN NEW.said_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.said_at, '+0 days')
  OR NEW.changed_at IS NOT strftime('%Y-%m-%dT%H:%M:%SZ', NEW.changed_at, '+0 days') BEGIN
  SELECT raise(ABORT, 'a time is not like 2026-01-31T18:00:00Z');
END;
CREATE TRIGGER shot_has_sound AFTER INSERT ON shot WHEN length(NEW.clip) = 0 BEGIN
  SELECT raise(ABORT, 'the sound of a shot is empty');
END;
CREATE TRIGGER changed_shot_has_sound AFTER UPDATE OF clip ON shot WHEN length(NEW.clip) = 0 BEGIN
  SELECT raise(ABORT, 'the sound of a shot is empty');
END;
CREATE INDEX earlier_part_earlier ON earlier_part (earlier);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('shot',5);
INSERT INTO "sqlite_sequence" VALUES('comment',4);
