-- Sessions in which nothing was flown that anybody would look for: a list without them counts them by this.
CREATE INDEX sessions_unflown ON sessions (began, id) WHERE legs = 0 AND ended IS NOT NULL AND keep = 0 AND remarks = 0;

-- Demonstrations are looked for among those that are kept.
CREATE INDEX sessions_kept ON sessions (began, id) WHERE keep = 1;
