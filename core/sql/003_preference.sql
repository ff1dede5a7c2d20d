-- How the person at this phone reads and types. It proves nothing, so it is no entry and may change.
CREATE TABLE preference (
    name  TEXT NOT NULL PRIMARY KEY CHECK (name <> ''),
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
