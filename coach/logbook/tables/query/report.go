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
	s.Checks, s.Causes = []coach.Check{}, []coach.Cause{}
	err = checks(ctx, tx, "checks c WHERE c.series = ?1", key, func(_ int64, k *coach.Check) {
		s.Checks = append(s.Checks, *k)
	})
	if err != nil {
		return err
	}
	err = causes(ctx, tx, "causes c WHERE c.series = ?1", key, func(_ int64, c *coach.Cause) {
		s.Causes = append(s.Causes, *c)
	})
	if err != nil {
		return err
	}
	at := map[int64]int{} // the legs by key
	rows, err := tx.QueryContext(ctx, `SELECT key, number, direction, outcome, reason, started, ended, change, verdict,
		score, mark,
		corrections, `+headline("legs", shape)+` FROM legs WHERE series = ? ORDER BY n`, key)
	err = tables.Each(rows, err, func() error {
		var key int64
		l := coach.Leg{Points: []coach.Point{}, Checks: []coach.Check{}, Causes: []coach.Cause{}}
		err := rows.Scan(&key, &l.Number, &l.Direction, &l.Outcome,
			readPhrase{&l.Reason}, &l.Start, &l.End, readPhrase{&l.Change}, &l.Verdict,
			&l.Score,
			&l.Grade, &l.Said, readPhrase{&l.Headline})
		at[key] = len(s.Legs)
		s.Legs = append(s.Legs, l)
		return err
	})
	if err != nil {
		return err
	}
	if err := fillLegs(ctx, tx, key, func(leg int64) *coach.Leg { return &s.Legs[at[leg]] }); err != nil {
		return err
	}
	for i := range s.Legs {
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

// fillLegs reads what belongs to the legs of a series, all at once: a database on another machine is asked less often.
func fillLegs(ctx context.Context, tx *tables.Tx, series int64, leg func(key int64) *coach.Leg) error {
	const ofLegs = " c JOIN legs l ON l.key = c.leg WHERE l.series = ?1"
	err := checks(ctx, tx, "checks"+ofLegs, series, func(key int64, k *coach.Check) {
		leg(key).Checks = append(leg(key).Checks, *k)
	})
	if err != nil {
		return err
	}
	err = causes(ctx, tx, "causes"+ofLegs, series, func(key int64, c *coach.Cause) {
		leg(key).Causes = append(leg(key).Causes, *c)
	})
	if err != nil {
		return err
	}
	rows, err := tx.QueryContext(ctx, `SELECT c.leg, c.n, c.point FROM points`+ofLegs+` ORDER BY c.leg, c.n`, series)
	return tables.Each(rows, err, func() error {
		var key int64
		var n int
		var text string
		if err := rows.Scan(&key, &n, &text); err != nil {
			return err
		}
		l := leg(key)
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

// checks reads the checks c of a series or of its legs, in order, with the key of the leg.
func checks(ctx context.Context, tx *tables.Tx, from string, series int64, take func(int64, *coach.Check)) error {
	rows, err := tx.QueryContext(ctx, `SELECT coalesce(c.leg, 0), c.id, c.label, c.kind, c.channel, c.turn, c.at,
		c.value, c.unit, c.aim, c.met_low, c.met_high, c.near_low, c.near_high, c.weight, c.verdict, c.score, c.words,
		c.reason, c.note, c.uncertainty, c.doubt FROM `+from+` ORDER BY c.leg, c.n`, series)
	return tables.Each(rows, err, func() error {
		var key int64
		var k coach.Check
		err := rows.Scan(&key, &k.ID, &k.Label, &k.Kind, &k.Channel, &k.Turn, &k.At, &k.Value, &k.Unit, &k.Aim,
			&k.Met[0], &k.Met[1], &k.Near[0], &k.Near[1], &k.Weight, &k.Verdict,
			&k.Score, &k.Words, readPhrase{&k.Reason}, readPhrase{&k.Note}, &k.Uncertainty, &k.Doubt)
		if err == nil {
			take(key, &k)
		}
		return err
	})
}

// causes reads the causes c of a series or of its legs, in order, with the key of the leg.
func causes(ctx context.Context, tx *tables.Tx, from string, series int64, take func(int64, *coach.Cause)) error {
	rows, err := tx.QueryContext(ctx, `SELECT coalesce(c.leg, 0), c.id, c.number, c.share, c.evidence, c.advice, c.minor
		FROM `+from+` ORDER BY c.leg, c.n`, series)
	return tables.Each(rows, err, func() error {
		var key int64
		var c coach.Cause
		err := rows.Scan(&key, &c.ID, &c.Leg, &c.Share, readPhrase{&c.Evidence}, readPhrase{&c.Advice}, &c.Minor)
		if err == nil {
			take(key, &c)
		}
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
