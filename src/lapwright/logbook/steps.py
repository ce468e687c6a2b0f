"""How the file of the log book grew: numbered steps, each made in one transaction.

A step that has been given out is never changed; what a later version of the program wants is a step of its own.
"""

from __future__ import annotations

import sqlite3

#: Marks the file as a log book of this program.
APPLICATION = 0x4C415057

_ENTRIES = """
CREATE TABLE entry (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    version INTEGER NOT NULL,
    engine TEXT NOT NULL,
    happened TEXT NOT NULL,
    -- Entries stand in the order of this number: the seconds of `happened`, and the id to part those of one second.
    place INTEGER NOT NULL UNIQUE,
    kind TEXT NOT NULL CHECK (kind IN ('found', 'done', 'measured', 'run', 'note')),
    text TEXT NOT NULL,
    minutes INTEGER CHECK (minutes >= 0),
    job TEXT NOT NULL CHECK (job IN ('', 'open', 'closed')),
    saved TEXT NOT NULL
) STRICT;
CREATE TABLE reading (
    entry INTEGER NOT NULL REFERENCES entry ON DELETE CASCADE,
    position INTEGER NOT NULL,
    name TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (entry, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE part_used (
    entry INTEGER NOT NULL REFERENCES entry ON DELETE CASCADE,
    position INTEGER NOT NULL,
    name TEXT NOT NULL,
    PRIMARY KEY (entry, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX entry_of_engine ON entry (engine, place);
CREATE INDEX entry_of_kind ON entry (kind, place);
CREATE INDEX entry_of_engine_and_kind ON entry (engine, kind, place);
CREATE INDEX open_job ON entry (place) WHERE job = 'open';
CREATE INDEX open_job_of_engine ON entry (engine, place) WHERE job = 'open';
"""

_PHOTOGRAPHS = """
CREATE TABLE photograph (
    id INTEGER PRIMARY KEY,
    entry INTEGER NOT NULL REFERENCES entry ON DELETE CASCADE,
    digest TEXT NOT NULL CHECK (length(digest) = 64),
    name TEXT NOT NULL,
    form TEXT NOT NULL CHECK (form IN ('jpg', 'png', 'webp')),
    width INTEGER NOT NULL,
    height INTEGER NOT NULL,
    added TEXT NOT NULL,
    UNIQUE (entry, digest)
) STRICT;
CREATE INDEX photograph_by_digest ON photograph (digest);
"""

# The row of an entry's words has the entry's place as its number: a search then walks the newest first and stops early.
_WORDS = """
CREATE VIRTUAL TABLE entry_words USING fts5 (
    text, readings, parts, photographs, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
CREATE VIEW words_of_entry (id, place, text, readings, parts, photographs) AS
SELECT id, place, text,
    (SELECT group_concat(name || ' ' || value, ' / ') FROM reading WHERE entry = entry.id),
    (SELECT group_concat(name, ' / ') FROM part_used WHERE entry = entry.id),
    (SELECT group_concat(name, ' / ') FROM photograph WHERE entry = entry.id)
FROM entry;
INSERT INTO entry_words (rowid, text, readings, parts, photographs)
SELECT place, text, readings, parts, photographs FROM words_of_entry;
"""

_REVISIONS = """
CREATE TABLE revision (
    engine TEXT NOT NULL,
    number INTEGER NOT NULL,
    text TEXT NOT NULL,
    digest TEXT NOT NULL,
    what TEXT NOT NULL,
    happened TEXT NOT NULL,
    PRIMARY KEY (engine, number)
) STRICT;
CREATE INDEX revision_by_digest ON revision (engine, digest, number);
-- Where an engine's record stands in its history.
CREATE TABLE standing (
    engine TEXT PRIMARY KEY,
    number INTEGER NOT NULL,
    FOREIGN KEY (engine, number) REFERENCES revision DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;
"""

#: The steps in order; a file has taken as many as its `user_version` says.
STEPS = (_ENTRIES, _PHOTOGRAPHS, _WORDS, _REVISIONS)


def take_steps(connection: sqlite3.Connection, *, upto: int = len(STEPS)) -> None:
    """Bring the file up to date, each step whole or not at all.

    Parameters
    ----------
    connection: one that may write
    upto: how many steps the file is to have taken
    """
    (taken,) = connection.execute("PRAGMA user_version").fetchone()
    for number in range(taken + 1, upto + 1):
        mark = f"PRAGMA application_id = {APPLICATION}; PRAGMA user_version = {number};"
        try:
            connection.executescript(f"BEGIN IMMEDIATE; {STEPS[number - 1]} {mark} COMMIT;")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise
