-- What was flown. A session's own row holds what a list shows of its first grading, so that a list reads nothing else.

CREATE TABLE students (
  key    INTEGER PRIMARY KEY,
  name   TEXT    NOT NULL UNIQUE,
  flew   INTEGER NOT NULL DEFAULT 0 -- ms since 1970, when the latest session began
) STRICT;

CREATE TABLE sessions (
  key       INTEGER PRIMARY KEY,
  id        TEXT    NOT NULL UNIQUE, -- the name of its folder
  began     INTEGER NOT NULL,        -- ms since 1970
  ended     INTEGER,                 -- NULL while it is being flown
  station   TEXT    NOT NULL,
  student   INTEGER REFERENCES students,
  keep      INTEGER NOT NULL DEFAULT 0,
  server    TEXT    NOT NULL,        -- version that recorded it
  maneuver  TEXT    NOT NULL,        -- as chosen at its beginning
  standard  TEXT    NOT NULL,
  aircraft  TEXT    NOT NULL,
  title     TEXT    NOT NULL,        -- of the aircraft's card
  maneuvers TEXT    NOT NULL DEFAULT '[]', -- flown, as [{"name","title"}]
  verdicts  TEXT    NOT NULL DEFAULT '',   -- a letter a leg, the first 100
  legs      INTEGER NOT NULL DEFAULT 0,
  score     REAL,                          -- mean of the finished legs
  grade     TEXT    NOT NULL DEFAULT '',
  change    TEXT    NOT NULL DEFAULT '',
  remarks   INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX sessions_began    ON sessions (began, id);
CREATE INDEX sessions_student  ON sessions (student, began, id);
CREATE INDEX sessions_aircraft ON sessions (aircraft, began, id);
CREATE INDEX sessions_grade    ON sessions (grade, began, id);
CREATE INDEX sessions_title    ON sessions (aircraft, title);

-- Cards as they stood: the same text is kept once, a changed one beside it.
CREATE TABLE cards (
  hash  TEXT PRIMARY KEY, -- SHA-256 of kind, name and text, each ended by a zero byte
  kind  TEXT NOT NULL,    -- maneuvers, standards, aircraft
  name  TEXT NOT NULL,
  title TEXT NOT NULL,
  text  TEXT NOT NULL     -- TOML
) STRICT;

-- Gradings of a session: 1 is the first, the others stand beside it.
CREATE TABLE grades (
  key         INTEGER PRIMARY KEY,
  session     INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  n           INTEGER NOT NULL,
  at          INTEGER NOT NULL, -- ms since 1970
  server      TEXT    NOT NULL,
  maneuver    TEXT    NOT NULL,
  standard    TEXT    NOT NULL,
  aircraft    TEXT    NOT NULL,
  score       REAL,
  grade       TEXT    NOT NULL,
  differences TEXT    NOT NULL, -- to the first, as ["words"]
  UNIQUE (session, n)
) STRICT;

CREATE TABLE graded_by (
  grade INTEGER NOT NULL REFERENCES grades ON DELETE CASCADE,
  card  TEXT    NOT NULL REFERENCES cards,
  PRIMARY KEY (grade, card)
) STRICT, WITHOUT ROWID;

CREATE TABLE series (
  key      INTEGER PRIMARY KEY,
  grade    INTEGER NOT NULL REFERENCES grades ON DELETE CASCADE,
  n        INTEGER NOT NULL, -- in the session, from 1
  station  TEXT    NOT NULL, -- sender, of captures with several
  hash     BLOB    NOT NULL, -- of all there is of it
  maneuver TEXT    NOT NULL,
  standard TEXT    NOT NULL,
  aircraft TEXT    NOT NULL,
  verdict  TEXT    NOT NULL,
  score    REAL    NOT NULL,
  mark     TEXT    NOT NULL, -- the grade in a word
  change   TEXT    NOT NULL,
  decision TEXT,             -- how it was found which maneuver it is
  UNIQUE (grade, n)
) STRICT;

CREATE TABLE legs (
  key         INTEGER PRIMARY KEY,
  series      INTEGER NOT NULL REFERENCES series ON DELETE CASCADE,
  session     INTEGER NOT NULL,
  n           INTEGER NOT NULL, -- in the session, from 1
  number      INTEGER NOT NULL, -- in its series, from 1
  direction   TEXT    NOT NULL,
  outcome     TEXT    NOT NULL,
  reason      TEXT    NOT NULL,
  started     REAL    NOT NULL, -- s of stream time
  ended       REAL    NOT NULL,
  change      TEXT    NOT NULL,
  verdict     TEXT    NOT NULL,
  score       REAL    NOT NULL,
  mark        TEXT    NOT NULL,
  corrections INTEGER NOT NULL
) STRICT;
CREATE INDEX legs_series  ON legs (series);
CREATE INDEX legs_session ON legs (session);

CREATE TABLE points (
  leg    INTEGER NOT NULL REFERENCES legs ON DELETE CASCADE,
  n      INTEGER NOT NULL, -- 0 is the entry, -1 the exit, the others from 1
  point  TEXT    NOT NULL, -- turn, time and the channels there were, as JSON
  PRIMARY KEY (leg, n)
) STRICT, WITHOUT ROWID;

-- Of a leg, or of a series as a whole.
CREATE TABLE checks (
  key         INTEGER PRIMARY KEY,
  leg         INTEGER REFERENCES legs ON DELETE CASCADE,
  series      INTEGER REFERENCES series ON DELETE CASCADE,
  n           INTEGER NOT NULL,
  id          TEXT    NOT NULL,
  label       TEXT    NOT NULL,
  kind        TEXT    NOT NULL,
  channel     TEXT    NOT NULL,
  turn        REAL,
  at          REAL,
  value       REAL,
  unit        TEXT    NOT NULL,
  aim         REAL,
  met_low     REAL,
  met_high    REAL,
  near_low    REAL,
  near_high   REAL,
  weight      REAL    NOT NULL,
  verdict     TEXT    NOT NULL,
  score       REAL    NOT NULL,
  words       TEXT    NOT NULL,
  reason      TEXT    NOT NULL,
  note        TEXT    NOT NULL,
  uncertainty REAL,
  doubt       TEXT    NOT NULL,
  CHECK ((leg IS NULL) <> (series IS NULL))
) STRICT;
CREATE INDEX checks_leg    ON checks (leg)    WHERE leg IS NOT NULL;
CREATE INDEX checks_series ON checks (series) WHERE series IS NOT NULL;

CREATE TABLE causes (
  key      INTEGER PRIMARY KEY,
  leg      INTEGER REFERENCES legs ON DELETE CASCADE,
  series   INTEGER REFERENCES series ON DELETE CASCADE,
  n        INTEGER NOT NULL,
  id       TEXT    NOT NULL,
  number   INTEGER NOT NULL, -- the leg it names, 0 is the series
  share    REAL    NOT NULL,
  evidence TEXT    NOT NULL,
  advice   TEXT    NOT NULL,
  minor    INTEGER NOT NULL,
  CHECK ((leg IS NULL) <> (series IS NULL))
) STRICT;
CREATE INDEX causes_leg    ON causes (leg)    WHERE leg IS NOT NULL;
CREATE INDEX causes_series ON causes (series) WHERE series IS NOT NULL;

-- What a session holds of one maneuver, of the first grading: filters, streaks and "the one thing" read only this.
CREATE TABLE flown (
  session  INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  maneuver TEXT    NOT NULL,
  title    TEXT    NOT NULL,
  legs     INTEGER NOT NULL,
  finished INTEGER NOT NULL,
  head     INTEGER NOT NULL, -- finished legs of grade good or better: in a row from the first
  tail     INTEGER NOT NULL, -- ... up to the last
  best     INTEGER NOT NULL, -- ... the longest row
  PRIMARY KEY (session, maneuver)
) STRICT, WITHOUT ROWID;
CREATE INDEX flown_maneuver ON flown (maneuver, title, session, legs, finished, head, tail, best);

-- The checks of those legs, summed up for trends, as JSON.
CREATE TABLE measured (
  session  INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  maneuver TEXT    NOT NULL,
  checks   TEXT    NOT NULL,
  PRIMARY KEY (session, maneuver)
) STRICT;

CREATE TABLE things (
  session  INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  maneuver TEXT    NOT NULL,
  words    TEXT    NOT NULL, -- the one thing to change
  legs     INTEGER NOT NULL,
  PRIMARY KEY (session, maneuver, words)
) STRICT, WITHOUT ROWID;
CREATE INDEX things_maneuver ON things (maneuver, words, session, legs);

CREATE TABLE remarks (
  key     INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  id      INTEGER NOT NULL, -- in the session, from 1
  leg     INTEGER NOT NULL, -- 0 is the session as a whole
  time    REAL,             -- s since the first datagram
  by      TEXT    NOT NULL,
  words   TEXT    NOT NULL,
  at      INTEGER NOT NULL, -- ms since 1970
  UNIQUE (session, id)
) STRICT;

CREATE VIRTUAL TABLE remarks_text USING fts5(words, content='remarks', content_rowid='key', tokenize='unicode61 remove_diacritics 2');
CREATE TRIGGER remarks_in AFTER INSERT ON remarks BEGIN
  INSERT INTO remarks_text (rowid, words) VALUES (new.key, new.words);
  UPDATE sessions SET remarks = remarks + 1 WHERE key = new.session;
END;
CREATE TRIGGER remarks_out AFTER DELETE ON remarks BEGIN
  INSERT INTO remarks_text (remarks_text, rowid, words) VALUES ('delete', old.key, old.words);
  UPDATE sessions SET remarks = remarks - 1 WHERE key = old.session;
END;

-- What was last chosen at a station, for when it comes back.
CREATE TABLE stations (
  name   TEXT PRIMARY KEY,
  choice TEXT    NOT NULL, -- JSON
  at     INTEGER NOT NULL
) STRICT;
