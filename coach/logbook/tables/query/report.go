package query

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// Report returns a grading of a session as it was kept, in full; n is 1 for the first. What only
// the stream tells (its channels, its length) is not in the logbook.
func (b Questions) Report(ctx context.Context, id string, n int) (*debrief.Report, error) {
	r := debrief.New()
	return r, b.Ask(ctx, func(tx *tables.Tx) error {
		key, began, err := tables.Find(tx, id)
		if err != nil {
			return err
		}
		var grade int64
		var ended sql.NullInt64
		err = tx.QueryRowContext(ctx, `SELECT g.key, s.ended FROM grades g JOIN sessions s ON s.key = g.session
			WHERE g.session = ? AND g.n = ?`, key, n).Scan(&grade, &ended)
		if errors.Is(err, sql.ErrNoRows) {
			return logbook.Refuse(phrase.NoSuchGrading.Of(phrase.Name("session", id), phrase.Int("grading", n)))
		}
		if err != nil {
			return err
		}
		r.Session = &debrief.SessionDates{ID: id, Began: logbook.Zulu(tables.Moment(began))}
		if ended.Valid {
			r.Session.Ended = logbook.Zulu(tables.Moment(ended.Int64))
		}
		stations, err := StationsFrom(ctx, tx, grade, b.ShapeIs())
		r.Files = append(r.Files, debrief.FileReport{File: id, Stations: stations})
		return err
	})
}

// NewestShape is that of tables that are written.
const NewestShape = tables.ShapeOfJudging

// StationsFrom reads the series of a grading from tables of a shape, by station.
func StationsFrom(ctx context.Context, tx *tables.Tx, grade int64, shape int) ([]debrief.StationReport, error) {
	list := []debrief.StationReport{}
	var keys [][]int64
	rows, err := tx.QueryContext(ctx, `SELECT key, station, maneuver, standard, aircraft, verdict, score, mark, change,
		decision, `+headline("series", shape)+`
		FROM series WHERE grade = ? ORDER BY n`, grade)
	err = tables.Each(rows, err, func() error {
		var key int64
		var station string
		var decision sql.NullString
		s := coach.Series{Legs: []coach.Leg{}}
		if err := rows.Scan(&key, &station, &s.Maneuver, &s.Standard, &s.Aircraft, &s.Verdict, &s.Score, &s.Grade,
			readPhrase{&s.Change},
			&decision, readPhrase{&s.Headline}); err != nil {
			return err
		}
		if n := len(list); n == 0 || list[n-1].Station != station {
			list = append(list, debrief.StationReport{Station: station, Channels: []string{}, Derived: []string{}})
			keys = append(keys, nil)
		}
		at := len(list) - 1
		list[at].Series, keys[at] = append(list[at].Series, s), append(keys[at], key)
		if decision.Valid {
			return json.Unmarshal([]byte(decision.String), &list[at].Series[len(list[at].Series)-1].Decision)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	for i := range list {
		for j := range list[i].Series {
			if err := fillSeries(ctx, tx, keys[i][j], &list[i].Series[j], shape); err != nil {
				return nil, err
			}
		}
		list[i].Summary = debrief.Summarize(list[i].Series)
	}
	return list, nil
}

func fillSeries(ctx context.Context, tx *tables.Tx, key int64, s *coach.Series, shape int) (err error) {
	if s.Checks, err = checksOf(ctx, tx, "series", key); err != nil {
		return err
	}
	if s.Causes, err = causesOf(ctx, tx, "series", key); err != nil {
		return err
	}
	var keys []int64
	rows, err := tx.QueryContext(ctx, `SELECT key, number, direction, outcome, reason, started, ended, change, verdict,
		score, mark,
		corrections, `+headline("legs", shape)+` FROM legs WHERE series = ? ORDER BY n`, key)
	err = tables.Each(rows, err, func() error {
		var key int64
		l := coach.Leg{Points: []coach.Point{}}
		err := rows.Scan(&key, &l.Number, &l.Direction, &l.Outcome,
			readPhrase{&l.Reason}, &l.Start, &l.End, readPhrase{&l.Change}, &l.Verdict,
			&l.Score,
			&l.Grade, &l.Said, readPhrase{&l.Headline})
		keys, s.Legs = append(keys, key), append(s.Legs, l)
		return err
	})
	if err != nil {
		return err
	}
	for i, key := range keys {
		if err := fillLeg(ctx, tx, key, &s.Legs[i]); err != nil {
			return err
		}
		if l := &s.Legs[i]; l.Headline.IsZero() {
			l.Headline = score.LegHeadline(l)
		}
	}
	s.Missing = score.Lacking(s)
	if s.Headline.IsZero() {
		s.Headline = score.SeriesHeadline(s)
	}
	return nil
}

func fillLeg(ctx context.Context, tx *tables.Tx, key int64, l *coach.Leg) (err error) {
	if l.Checks, err = checksOf(ctx, tx, "leg", key); err != nil {
		return err
	}
	if l.Causes, err = causesOf(ctx, tx, "leg", key); err != nil {
		return err
	}
	rows, err := tx.QueryContext(ctx, `SELECT n, point FROM points WHERE leg = ? ORDER BY n`, key)
	return tables.Each(rows, err, func() error {
		var n int
		var text string
		if err := rows.Scan(&n, &text); err != nil {
			return err
		}
		var p coach.Point
		if err := json.Unmarshal([]byte(text), &p); err != nil {
			return err
		}
		switch n {
		case EntryPoint:
			l.Entry = p
		case ExitPoint:
			l.Exit = &p
		default:
			l.Points = append(l.Points, p)
		}
		return nil
	})
}

// checksOf reads the checks of a leg or a series; of is "leg" or "series".
func checksOf(ctx context.Context, tx *tables.Tx, of string, key int64) ([]coach.Check, error) {
	list := []coach.Check{}
	rows, err := tx.QueryContext(ctx, `SELECT id, label, kind, channel, turn, at, value, unit, aim, met_low, met_high,
		near_low,
		near_high, weight, verdict, score, words, reason, note, uncertainty, doubt
		FROM checks WHERE `+of+` = ? ORDER BY n`, key)
	return list, tables.Each(rows, err, func() error {
		var k coach.Check
		err := rows.Scan(&k.ID, &k.Label, &k.Kind, &k.Channel, &k.Turn, &k.At, &k.Value, &k.Unit, &k.Aim,
			&k.Met[0], &k.Met[1], &k.Near[0], &k.Near[1], &k.Weight, &k.Verdict,
			&k.Score, &k.Words, readPhrase{&k.Reason}, readPhrase{&k.Note}, &k.Uncertainty, &k.Doubt)
		list = append(list, k)
		return err
	})
}

// causesOf reads the causes of a leg or a series.
func causesOf(ctx context.Context, tx *tables.Tx, of string, key int64) ([]coach.Cause, error) {
	list := []coach.Cause{}
	rows, err := tx.QueryContext(ctx, `SELECT id, number, share, evidence, advice, minor FROM causes
		WHERE `+of+` = ? ORDER BY n`, key)
	return list, tables.Each(rows, err, func() error {
		var c coach.Cause
		err := rows.Scan(&c.ID, &c.Leg, &c.Share, readPhrase{&c.Evidence}, readPhrase{&c.Advice}, &c.Minor)
		list = append(list, c)
		return err
	})
}

// The numbers of the points that are not checkpoints.
const (
	EntryPoint = 0
	ExitPoint  = -1
)

// A readPhrase reads a column of English as a phrase.
type readPhrase struct{ *phrase.Phrase }

// Scan reads a column of text.
func (p readPhrase) Scan(v any) error {
	switch v := v.(type) {
	case string:
		*p.Phrase = phrase.Read(v)
	case []byte:
		*p.Phrase = phrase.Read(string(v))
	case nil:
		*p.Phrase = phrase.Phrase{}
	default:
		return fmt.Errorf("a text is stored as %T", v)
	}
	return nil
}
