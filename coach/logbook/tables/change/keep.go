package change

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"encoding/json"
	"errors"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
	"halfturn/stream/pack"
	"halfturn/stream/phrase"
)

// Keep enters what was flown so far: the first grading of a session. It can be repeated;
// only the series that changed are written again.
func (b Changes) Keep(id string, r *debrief.Report) error {
	return b.change(id, func(tx *tables.Tx) error { return keep(tx, id, r) })
}

func keep(tx *tables.Tx, id string, r *debrief.Report) error {
	key, _, err := tables.Find(tx, id)
	if err != nil {
		return err
	}
	var grade int64
	if err := tx.QueryRow(`SELECT key FROM grades WHERE session = ? AND n = 1`, key).Scan(&grade); err != nil {
		return err
	}
	if err := gradeSeries(tx, key, grade, r); err != nil {
		return err
	}
	return summarize(tx, key, grade, r)
}

// gradeSeries writes the series of a grading.
func gradeSeries(tx *tables.Tx, session, grade int64, r *debrief.Report) error {
	stored, err := hashes(tx, grade)
	if err != nil {
		return err
	}
	of, err := tables.IdentityOf(tx, grade)
	if err != nil {
		return err
	}
	n, leg := 0, 0
	for _, s := range logbook.Stations(r) {
		for i := range s.Series {
			n++
			x := &s.Series[i]
			hash := fingerprint(x, leg)
			if !bytes.Equal(stored[n], hash) {
				if err := series(tx, &seriesRow{session, grade, of, n, s.Station, hash, leg}, x); err != nil {
					return err
				}
			}
			leg += len(x.Legs)
		}
	}
	_, err = tx.Exec(`DELETE FROM series WHERE grade = ? AND n > ?`, grade, n)
	return err
}

// fingerprint changes when a series does; before is the number of legs before it in the session. It is that of the
// packed form: after each leg those of all series of the session are taken, and JSON takes ten times as long.
func fingerprint(s *coach.Series, before int) []byte {
	sum := sha256.Sum256(pack.Of(&numbered{before, s.WithoutTraces()}).Bytes())
	return sum[:]
}

// numbered is a series with its place in its session.
type numbered struct {
	Before int
	Series *coach.Series
}

func hashes(tx *tables.Tx, grade int64) (map[int][]byte, error) {
	all := map[int][]byte{}
	rows, err := tx.Query(`SELECT n, hash FROM series WHERE grade = ?`, grade)
	return all, tables.Each(rows, err, func() error {
		var n int
		var hash []byte
		err := rows.Scan(&n, &hash)
		all[n] = hash
		return err
	})
}

type seriesRow struct {
	session, grade int64
	of             *tables.Identity
	n              int
	station        string
	hash           []byte
	before         int // legs of the session before it
}

// series writes one series with everything that belongs to it, in place of the old rows.
func series(tx *tables.Tx, at *seriesRow, s *coach.Series) error {
	if _, err := tx.Exec(`DELETE FROM series WHERE grade = ? AND n = ?`, at.grade, at.n); err != nil {
		return err
	}
	var decision sql.NullString
	if s.Decision != nil {
		text, err := json.Marshal(s.Decision)
		if err != nil {
			return err
		}
		decision = sql.NullString{String: string(text), Valid: true}
	}
	var key int64
	err := tx.QueryRow(`INSERT INTO series (grade, n, station, hash, maneuver, standard, aircraft, verdict, score, mark,
		change,
			decision, headline)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING key`,
		at.grade, at.n, at.station, at.hash, s.Maneuver, s.Standard, s.Aircraft, s.Verdict,
		s.Score, s.Grade, s.Change.String(), decision, s.Headline.String()).Scan(&key)
	if err != nil {
		return err
	}
	w := newWriter(tx)
	of := owner{series: sql.NullInt64{Int64: key, Valid: true}}
	w.checks(of, s.Checks)
	w.causes(of, s.Causes)
	for i := range s.Legs {
		n := at.before + i + 1
		if err := w.leg(key, at.session, n, at.of.Leg(n), &s.Legs[i]); err != nil {
			return err
		}
	}
	return w.flush()
}

// A writer writes the rows of legs.
type writer struct {
	tx                   *tables.Tx
	points, check, cause *tables.Insert
}

func newWriter(tx *tables.Tx) *writer {
	return &writer{
		tx:     tx,
		points: tx.Into("points", "leg", "n", "point"),
		check: tx.Into("checks", "leg", "series", "n", "id", "label", "kind", "channel", "turn", "at", "value", "unit",
			"aim", "met_low", "met_high", "near_low", "near_high", "weight", "verdict", "score", "words", "reason",
			"note", "uncertainty", "doubt"),
		cause: tx.Into("causes", "leg", "series", "n", "id", "number", "share", "evidence", "advice", "minor"),
	}
}

// flush writes the rows that wait.
func (w *writer) flush() error {
	return errors.Join(w.points.Flush(), w.check.Flush(), w.cause.Flush())
}

// owner is the leg or the series that a row belongs to.
type owner struct{ leg, series sql.NullInt64 }

func (w *writer) leg(series, session int64, n int, uid string, l *coach.Leg) error {
	var key int64
	err := w.tx.QueryRow(`INSERT INTO legs (series, session, n, uid, number, direction, outcome, reason, started, ended,
		change, verdict, score, mark, corrections, headline)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING key`,
		series, session, n, uid, l.Number, l.Direction, l.Outcome, l.Reason.String(), l.Start, l.End,
		l.Change.String(), l.Verdict, l.Score, l.Grade, l.Said, l.Headline.String()).Scan(&key)
	if err != nil {
		return err
	}
	if err := w.point(key, query.EntryPoint, &l.Entry); err != nil {
		return err
	}
	for i := range l.Points {
		if err := w.point(key, i+1, &l.Points[i]); err != nil {
			return err
		}
	}
	if l.Exit != nil {
		if err := w.point(key, query.ExitPoint, l.Exit); err != nil {
			return err
		}
	}
	of := owner{leg: sql.NullInt64{Int64: key, Valid: true}}
	w.checks(of, l.Checks)
	w.causes(of, l.Causes)
	return nil
}

func (w *writer) point(leg int64, n int, p *coach.Point) error {
	text, err := json.Marshal(p)
	if err != nil {
		return err
	}
	w.points.Row(leg, n, string(text))
	return nil
}

func (w *writer) checks(of owner, list []coach.Check) {
	for i := range list {
		k := &list[i]
		w.check.Row(of.leg, of.series, i, k.ID, k.Label, k.Kind, k.Channel, k.Turn, k.At, k.Value, k.Unit, k.Aim,
			k.Met[0], k.Met[1], k.Near[0], k.Near[1], k.Weight, k.Verdict, k.Score, k.Words, k.Reason.String(),
			k.Note.String(), k.Uncertainty, k.Doubt)
	}
}

func (w *writer) causes(of owner, list []coach.Cause) {
	for i := range list {
		c := &list[i]
		w.cause.Row(of.leg, of.series, i, c.ID, c.Leg, c.Share, c.Evidence.String(), c.Advice.String(),
			tables.Flag(c.Minor))
	}
}

// titlesOf maps kind/name to the title of the cards of a grading.
func titlesOf(tx *tables.Tx, grade int64) (map[string]string, error) {
	titles := map[string]string{"maneuvers/" + coach.Unclear: "Unclear"}
	rows, err := tx.Query(`SELECT c.kind, c.name, c.title FROM graded_by g JOIN cards c ON c.hash = g.card
		WHERE g.grade = ?`, grade)
	return titles, tables.Each(rows, err, func() error {
		var kind, name, title string
		err := rows.Scan(&kind, &name, &title)
		titles[kind+"/"+name] = title
		return err
	})
}

// Regrade enters another grading beside the first.
func (b Changes) Regrade(id string, g *logbook.Grading) error {
	return b.change(id, func(tx *tables.Tx) error {
		key, _, err := tables.Find(tx, id)
		if err != nil {
			return err
		}
		return regrade(tx, key, g)
	})
}

func regrade(tx *tables.Tx, session int64, g *logbook.Grading) error {
	differences := g.Differences
	if differences == nil {
		differences = []phrase.Phrase{}
	}
	text, err := json.Marshal(differences)
	if err != nil {
		return err
	}
	sum := logbook.TallyOf(g.Report, nil)
	var n, grade int64
	err = tx.QueryRow(`SELECT coalesce(max(n), 1) + 1 FROM grades WHERE session = ?`, session).Scan(&n)
	if err != nil {
		return err
	}
	err = tx.QueryRow(`INSERT INTO grades (session, n, at, server, maneuver, standard, aircraft, score, grade,
		differences, headline) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING key`,
		session, n, g.At.UnixMilli(), g.Version, g.Maneuver, g.Standard, g.Aircraft, sum.Score(), sum.Grade(),
		string(text), sum.Headline().String()).Scan(&grade)
	if err != nil {
		return err
	}
	if err := judgedBy(tx, grade, g.Cards); err != nil {
		return err
	}
	return gradeSeries(tx, session, grade, g.Report)
}

// summary writes what lists and trends show of the first grading.
func summary(tx *tables.Tx, session, grade int64, sum *logbook.Tally) error {
	named, err := json.Marshal(sum.Maneuvers)
	if err != nil {
		return err
	}
	score, mark, headline := sum.Score(), sum.Grade(), sum.Headline().String()
	_, err = tx.Exec(`UPDATE sessions SET maneuvers = ?, verdicts = ?, legs = ?, score = ?, grade = ?, change = ?,
		headline = ? WHERE key = ?`,
		string(named), sum.Letters, sum.Legs, score, mark, sum.Change.String(), headline, session)
	if err != nil {
		return err
	}
	if _, err := tx.Exec(`UPDATE grades SET score = ?, grade = ?, headline = ? WHERE key = ?`, score, mark,
		headline, grade); err != nil {
		return err
	}
	for _, table := range []string{"flown", "measured", "things"} {
		if _, err := tx.Exec(`DELETE FROM `+table+` WHERE session = ?`, session); err != nil {
			return err
		}
	}
	for name, m := range sum.By {
		if err := ofManeuver(tx, session, name, m); err != nil {
			return err
		}
	}
	return nil
}

// ofManeuver writes the sums of one maneuver.
func ofManeuver(tx *tables.Tx, session int64, name string, m *logbook.ManeuverTally) error {
	checks, err := json.Marshal(m.Checks())
	if err != nil {
		return err
	}
	_, err = tx.Exec(`INSERT INTO measured (session, maneuver, checks) VALUES (?, ?, ?)`, session, name, string(checks))
	if err != nil {
		return err
	}
	if _, err := tx.Exec(`INSERT INTO flown (session, maneuver, title, legs, finished, head, tail, best)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
		session, name, m.Title, m.Legs, m.Finished, m.Head, m.Tail, m.Best); err != nil {
		return err
	}
	things := tx.Into("things", "session", "maneuver", "words", "legs")
	for words, n := range m.Things {
		things.Row(session, name, words, n)
	}
	return things.Flush()
}
