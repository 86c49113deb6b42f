-- Ids that are unique without asking anyone. The step in identity.go fills in those of what is there.
ALTER TABLE sessions ADD COLUMN uid TEXT NOT NULL DEFAULT '';
ALTER TABLE students ADD COLUMN uid TEXT NOT NULL DEFAULT '';
ALTER TABLE remarks  ADD COLUMN uid TEXT NOT NULL DEFAULT '';
ALTER TABLE legs     ADD COLUMN uid TEXT NOT NULL DEFAULT '';
