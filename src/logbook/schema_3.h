// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::logbook {

/// From version 2 to 3: whether a shot's numbers could be seen, why a shot was dropped before it was said to be none, and rules that
/// version 2 left to the program. The rules are triggers: a table made anew would write all sound again, and a row that breaks
/// one could not be brought over; here old rows stay readable and no new one comes in.
inline constexpr const char* kSchema3 = R"sql(
-- 1: its numbers were never to be seen. A comment uncovers, and what is uncovered is never covered again.
ALTER TABLE shot ADD COLUMN covered INTEGER NOT NULL DEFAULT 0 CHECK (covered IN (0, 1));
UPDATE shot SET covered = 1 WHERE id NOT IN (SELECT shot FROM comment WHERE shot IS NOT NULL) AND block IN (
  SELECT block.id FROM block JOIN session ON session.id = block.session
  WHERE session.blind AND block.id NOT IN (SELECT block FROM comment WHERE block IS NOT NULL));
CREATE TRIGGER comment_uncovers AFTER INSERT ON comment BEGIN
  UPDATE shot SET covered = 0 WHERE covered AND (id = NEW.shot OR block = NEW.block);
END;
CREATE TRIGGER seeing_session_uncovers AFTER UPDATE OF blind ON session WHEN NOT NEW.blind BEGIN
  UPDATE shot SET covered = 0 WHERE covered AND block IN (SELECT id FROM block WHERE session = NEW.id);
END;
-- What was changed was changed with the numbers in sight.
UPDATE comment SET blind = 0 WHERE changed_at IS NOT NULL;

ALTER TABLE correction ADD COLUMN dropped_before TEXT CHECK (dropped_before <> '');

-- A block's set-up is one of its session's bow. Each table looks, since an import fills them in any order.
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

-- Times are UTC, ISO 8601, whole seconds. A day that is none (30 February) comes back as another one when
-- time is reckoned from it.
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
)sql";

}  // namespace ringfall::logbook
