CREATE TABLE users (
	id       TEXT PRIMARY KEY,
	name     TEXT NOT NULL,
	fold     TEXT NOT NULL UNIQUE, -- the name as it is compared
	role     TEXT NOT NULL,
	stations TEXT NOT NULL,        -- JSON
	grp      TEXT NOT NULL,
	password TEXT NOT NULL,        -- argon2id
	made     INTEGER NOT NULL      -- times are ms since 1970
);

CREATE TABLE invitations (
	id      TEXT PRIMARY KEY,
	token   BLOB NOT NULL UNIQUE, -- SHA-256
	station TEXT NOT NULL,
	whom    TEXT NOT NULL,
	by      TEXT NOT NULL,        -- JSON
	made    INTEGER NOT NULL,
	until   INTEGER NOT NULL
);

CREATE TABLE logins (
	id         TEXT PRIMARY KEY,
	token      BLOB NOT NULL UNIQUE, -- SHA-256
	user       TEXT REFERENCES users ON DELETE CASCADE,
	invitation TEXT REFERENCES invitations ON DELETE CASCADE,
	made       INTEGER NOT NULL,
	seen       INTEGER NOT NULL,
	until      INTEGER NOT NULL
);
CREATE INDEX logins_user ON logins (user);
CREATE INDEX logins_invitation ON logins (invitation);

CREATE TABLE stations (
	id   TEXT PRIMARY KEY,
	name TEXT NOT NULL,
	fold TEXT NOT NULL UNIQUE,
	grp  TEXT NOT NULL,
	key  BLOB UNIQUE, -- SHA-256; NULL is none
	made INTEGER NOT NULL,
	used INTEGER
);

CREATE TABLE log (
	n       INTEGER PRIMARY KEY AUTOINCREMENT,
	at      INTEGER NOT NULL,
	user    TEXT NOT NULL,
	name    TEXT NOT NULL,
	role    TEXT NOT NULL,
	address TEXT NOT NULL,
	what    TEXT NOT NULL,
	target  TEXT NOT NULL,
	status  INTEGER NOT NULL
);
CREATE INDEX log_user ON log (user, n);
