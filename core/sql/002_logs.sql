-- The files that recorders wrote, byte for byte, named by their SHA-256 digest: a copy of the journal holds them too.
CREATE TABLE log_file (
    digest BLOB    NOT NULL PRIMARY KEY CHECK (length(digest) = 32),
    bytes  INTEGER NOT NULL CHECK (bytes > 0)
) STRICT;

-- In pieces, so that no value grows past what SQLite takes at once.
CREATE TABLE log_piece (
    digest BLOB    NOT NULL REFERENCES log_file (digest),
    place  INTEGER NOT NULL CHECK (place >= 0),
    data   BLOB    NOT NULL,
    PRIMARY KEY (digest, place)
) STRICT;

CREATE TRIGGER log_file_is_never_changed BEFORE UPDATE ON log_file
BEGIN
    SELECT RAISE(ABORT, 'a log is never changed');
END;

CREATE TRIGGER log_file_is_never_deleted BEFORE DELETE ON log_file
BEGIN
    SELECT RAISE(ABORT, 'a log is never deleted');
END;

CREATE TRIGGER log_piece_is_never_changed BEFORE UPDATE ON log_piece
BEGIN
    SELECT RAISE(ABORT, 'a log is never changed');
END;

CREATE TRIGGER log_piece_is_never_deleted BEFORE DELETE ON log_piece
BEGIN
    SELECT RAISE(ABORT, 'a log is never deleted');
END;
