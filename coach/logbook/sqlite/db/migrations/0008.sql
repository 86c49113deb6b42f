-- The greatest fence under which a session was changed: 0 for one that no node of a cluster flew. What is entered under
-- a smaller one is refused.
ALTER TABLE sessions ADD COLUMN fence INTEGER NOT NULL DEFAULT 0;
