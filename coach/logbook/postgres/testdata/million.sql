-- A million sessions of 20,000 students at 2,000 stations, straight into the tables of a new logbook, in minutes:
--   psql DSN -f million.sql
-- Grades in full are there for 200 of the students, and for the sessions that are kept.
SET search_path = halfturn_logbook;
SET work_mem = '256MB';
-- No triggers: what refers to other rows is right, and remarks are counted below.
SET session_replication_role = replica;

INSERT INTO students (key, name, fold, uid, flew)
  SELECT i, 'Student ' || i, 'student ' || i, 's' || i, i FROM generate_series(1, 20000) i;

INSERT INTO sessions (id, uid, began, ended, station, student, keep, server, maneuver, standard, aircraft, title,
    maneuvers, verdicts, legs, score, grade, remarks)
  SELECT to_char(to_timestamp(1900000000 + i * 30), 'YYYY-MM-DD"T"HH24-MI-SS"Z"') || '_seat-' || i % 2000, 'u' || i,
    (1900000000::BIGINT + i * 30) * 1000, (1900000000::BIGINT + i * 30 + 1800) * 1000, 'seat ' || i % 2000,
    1 + (i::BIGINT * 7919) % 20000, CASE WHEN i % 500 = 0 THEN 1 ELSE 0 END, '1.2',
    (ARRAY['wing-over', 'steep-turn', 'chandelle-civil', 'lazy-eight'])[1 + i % 4], '', 'trainer-' || i % 12,
    'Trainer ' || i % 12, '[{"name":"wing-over","title":"Wing-over"}]', 'nnnnnn', 6, 40 + i % 60,
    (ARRAY['unable', 'fair', 'good', 'excellent'])[1 + (i * 31) % 4], 0
  FROM generate_series(1, 1000000) i;

INSERT INTO flown SELECT key, maneuver, initcap(maneuver), 6, 6, key % 4, key % 3, 4 FROM sessions;
INSERT INTO things SELECT key, maneuver, 'Correction ' || key % 12, 2 FROM sessions;
INSERT INTO measured
  SELECT key, maneuver, (SELECT json_agg(json_build_object('id', 'check-' || j, 'label', 'Bank at 90°', 'unit', '°',
    'turn', 90, 'n', 6, 'met', ARRAY[60, 90], 'near', ARRAY[55, 95],
    'points', ARRAY[json_build_object('legs', 6)])) FROM generate_series(0, 7) j)::TEXT
  FROM sessions WHERE student <= 200 OR key > 999000;

INSERT INTO remarks (session, id, by, leg, words, at, plain)
  SELECT key, 1, '', 0, words, began, words FROM (SELECT key, began, 'the nose is '
    || (ARRAY['late', 'early', 'high', 'low'])[1 + key % 4] || ' on the '
    || (ARRAY['entry', 'exit', 'apex', 'roll'])[1 + key / 4 % 4]
    || CASE WHEN key % 9973 = 0 THEN ' spiral' ELSE '' END AS words FROM sessions WHERE key % 3 = 0) AS said;
UPDATE sessions SET remarks = 1 WHERE key % 3 = 0;

INSERT INTO grades (session, n, at, server, maneuver, standard, aircraft, score, grade, differences)
  SELECT key, 1, began, '1.2', maneuver, '', aircraft, score, grade, '[]' FROM sessions
  WHERE student <= 200 OR keep = 1 ORDER BY key;
INSERT INTO series (grade, n, station, hash, maneuver, standard, aircraft, verdict, score, mark, change)
  SELECT key, 1, 'seat', '\x00', maneuver, '', aircraft, 'near', 80, 'good', '' FROM grades;
INSERT INTO legs (series, session, n, number, direction, outcome, reason, started, ended, change, verdict, score, mark,
    corrections)
  SELECT x.key, g.session, l, l, CASE WHEN l % 2 = 0 THEN 'left' ELSE 'right' END, 'finished', '', l * 60,
    l * 60 + 40, '', 'near', 50 + x.key * l % 50, 'good', 1
  FROM series x JOIN grades g ON g.key = x.grade, generate_series(1, 6) l ORDER BY x.key, l;
INSERT INTO checks (leg, n, id, label, kind, channel, turn, value, unit, aim, met_low, met_high, near_low, near_high,
    weight, verdict, score, words, reason, note, doubt)
  SELECT key, c.n, 'check-' || c.n, 'Bank at 90°', 'at', 'bank', c.n * 10, 60 + c.n, '°', 75, 60, 90, 55, 95, 1,
    'met', 80, 'bank 62°, aim 75°', '', '', '' FROM legs, generate_series(0, 17) AS c (n) ORDER BY key, c.n;
INSERT INTO causes (leg, n, id, number, share, evidence, advice, minor)
  SELECT key, c.n, 'cause-' || c.n, number, 0.5, 'the bank came late', 'Begin to roll sooner', 0
  FROM legs, generate_series(0, 1) AS c (n) ORDER BY key, c.n;
INSERT INTO points (leg, n, point)
  SELECT key, c.n, '{"time":12.5,"turn":45,"airspeed":130.5,"bank":61.2,"pitch":4.1,"heading":87}'
  FROM legs, generate_series(-1, 3) AS c (n) ORDER BY key, c.n;
VACUUM ANALYZE;
