-- A recorder's file may be longer than memory: it comes in piece by piece, waits while the person says what its columns are, and is
-- kept for ever once it is attached to a flight. A copy of the journal holds it too.
CREATE TABLE log (
    id     INTEGER PRIMARY KEY,
    -- SHA-256 over the whole file; null until it is here.
    digest BLOB    CHECK (length(digest) = 32),
    bytes  INTEGER NOT NULL CHECK (bytes >= 0),
    kept   INTEGER NOT NULL CHECK (kept IN (0, 1)),
    CHECK (kept = 0 OR (digest IS NOT NULL AND bytes > 0))
) STRICT;

CREATE UNIQUE INDEX log_is_kept_once ON log (digest) WHERE kept = 1;

-- In pieces of one length, the last but shorter, so that no value grows past what SQLite takes at once.
CREATE TABLE log_part (
    log   INTEGER NOT NULL REFERENCES log (id),
    place INTEGER NOT NULL CHECK (place >= 0),
    data  BLOB    NOT NULL,
    PRIMARY KEY (log, place)
) STRICT;

INSERT INTO log (digest, bytes, kept) SELECT digest, bytes, 1 FROM log_file;
INSERT INTO log_part (log, place, data)
    SELECT log.id, log_piece.place, log_piece.data FROM log_piece JOIN log ON log.digest = log_piece.digest;

DROP TABLE log_piece;
DROP TABLE log_file;

CREATE TRIGGER kept_log_is_never_changed BEFORE UPDATE ON log WHEN OLD.kept = 1
BEGIN
    SELECT RAISE(ABORT, 'a log that is kept is never changed');
END;

CREATE TRIGGER kept_log_is_never_deleted BEFORE DELETE ON log WHEN OLD.kept = 1
BEGIN
    SELECT RAISE(ABORT, 'a log that is kept is never deleted');
END;

CREATE TRIGGER kept_log_takes_no_more BEFORE INSERT ON log_part
WHEN EXISTS (SELECT 1 FROM log WHERE id = NEW.log AND kept = 1)
BEGIN
    SELECT RAISE(ABORT, 'a log that is kept takes no more');
END;

CREATE TRIGGER log_part_is_never_changed BEFORE UPDATE ON log_part
BEGIN
    SELECT RAISE(ABORT, 'a piece of a log is never changed');
END;

CREATE TRIGGER kept_log_part_is_never_deleted BEFORE DELETE ON log_part
WHEN EXISTS (SELECT 1 FROM log WHERE id = OLD.log AND kept = 1)
BEGIN
    SELECT RAISE(ABORT, 'a log that is kept is never deleted');
END;
