-- What a verdict rests on, in a line. Sessions from before have none.
ALTER TABLE sessions ADD COLUMN headline TEXT NOT NULL DEFAULT '';
ALTER TABLE grades   ADD COLUMN headline TEXT NOT NULL DEFAULT '';
ALTER TABLE series   ADD COLUMN headline TEXT NOT NULL DEFAULT '';
ALTER TABLE legs     ADD COLUMN headline TEXT NOT NULL DEFAULT '';
