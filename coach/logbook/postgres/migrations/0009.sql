-- The course that each student flies: the folded name, and a choice as JSON.
CREATE TABLE courses (
  student TEXT PRIMARY KEY,
  choice  TEXT   NOT NULL,
  at      BIGINT NOT NULL
);
