-- Lists name the students who flew last, and read no more of them than they name.
CREATE INDEX students_flew ON students (flew DESC, name);

-- The words of remarks as they are searched: folded, without accents, as in every engine. The step in plain.go fills
-- them in.
ALTER TABLE remarks ADD COLUMN plain TEXT NOT NULL DEFAULT '';
DROP TRIGGER remarks_in;
DROP TRIGGER remarks_out;
DROP TABLE remarks_text;
CREATE VIRTUAL TABLE remarks_text USING fts5(plain, content='remarks', content_rowid='key', tokenize='unicode61');
CREATE TRIGGER remarks_in AFTER INSERT ON remarks BEGIN
  INSERT INTO remarks_text (rowid, plain) VALUES (new.key, new.plain);
  UPDATE sessions SET remarks = remarks + 1 WHERE key = new.session;
END;
CREATE TRIGGER remarks_out AFTER DELETE ON remarks BEGIN
  INSERT INTO remarks_text (remarks_text, rowid, plain) VALUES ('delete', old.key, old.plain);
  UPDATE sessions SET remarks = remarks - 1 WHERE key = old.session;
END;
