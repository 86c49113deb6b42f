-- Two spellings of one name are one student: fold is names.Key of the name. The step in names.go fills it and merges
-- those there are.
ALTER TABLE students ADD COLUMN fold TEXT NOT NULL DEFAULT '';

-- Session folders that the last rebuild could not take in.
CREATE TABLE left_out (
  id  TEXT PRIMARY KEY, -- the name of the folder
  why TEXT NOT NULL
) STRICT;
