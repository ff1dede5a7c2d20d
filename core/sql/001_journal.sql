-- The journal: every entry for ever, each with the digest of the one before it.
CREATE TABLE entry (
    seq          INTEGER PRIMARY KEY CHECK (seq > 0),
    id           BLOB    NOT NULL UNIQUE CHECK (length(id) = 16),
    at           TEXT    NOT NULL,
    monotonic_ms INTEGER NOT NULL,
    boot         TEXT    NOT NULL,
    author       TEXT    NOT NULL CHECK (json_valid(author)),
    kind         TEXT    NOT NULL CHECK (kind <> ''),
    version      INTEGER NOT NULL CHECK (version > 0),
    body         TEXT    NOT NULL CHECK (json_valid(body)),
    previous     BLOB    NOT NULL CHECK (length(previous) = 32),
    digest       BLOB    NOT NULL UNIQUE CHECK (length(digest) = 32),
    withdraws    BLOB    UNIQUE REFERENCES entry (id)
) STRICT;

CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed');
END;

CREATE TRIGGER entry_is_never_deleted BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never deleted');
END;

-- REPLACE deletes what is in its way without asking the trigger above.
CREATE TRIGGER entry_is_never_replaced BEFORE INSERT ON entry
WHEN NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM entry)
    OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR digest = NEW.digest OR withdraws = NEW.withdraws)
BEGIN
    SELECT RAISE(ABORT, 'an entry is never replaced: it comes after the last one, once');
END;

-- Half-typed fields, by the place they belong to, so that a killed phone loses no key stroke.
CREATE TABLE draft (
    place TEXT NOT NULL,
    field TEXT NOT NULL,
    text  TEXT NOT NULL,
    PRIMARY KEY (place, field)
) STRICT, WITHOUT ROWID;

-- Where the pilot is, and the way back.
CREATE TABLE bookmark (
    depth INTEGER PRIMARY KEY CHECK (depth >= 0),
    place TEXT    NOT NULL CHECK (json_valid(place))
) STRICT;
