-- What people made of the grades of a session, as JSON: logbook.Judging.
ALTER TABLE sessions ADD COLUMN judging TEXT NOT NULL DEFAULT '';
