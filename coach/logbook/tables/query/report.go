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
		r.Session = dates(id, began, ended)
		stations, err := StationsFrom(ctx, tx, grade, b.ShapeIs())
		r.Files = append(r.Files, debrief.FileReport{File: id, Stations: stations})
		return err
	})
}

// dates are when a session was.
func dates(id string, began int64, ended sql.NullInt64) *debrief.SessionDates {
	d := &debrief.SessionDates{ID: id, Began: logbook.Zulu(tables.Moment(began))}
	if ended.Valid {
		d.Ended = logbook.Zulu(tables.Moment(ended.Int64))
	}
	return d
}

// NewestShape is that of tables that are written.
const NewestShape = tables.ShapeOfJudging

// StationsFrom reads the series of a grading from tables of a shape, by station.
func StationsFrom(ctx context.Context, tx *tables.Tx, grade int64, shape int) ([]debrief.StationReport, error) {
	g := gradings{ctx: ctx, tx: tx, shape: shape, points: true}
	return g.one(grade)
}

// gradings reads gradings in full, any number of them by the same few questions: a database on another machine is asked
// less often.
type gradings struct {
	ctx    context.Context
	tx     *tables.Tx
	shape  int
	points bool // of the legs, too

	series map[int64]*coach.Series // by key
	legs   map[int64]*coach.Leg
	known  map[string]phrase.Phrase
}

// one reads one grading.
func (g *gradings) one(grade int64) ([]debrief.StationReport, error) {
	all, err := g.read([]int64{grade})
	if list := all[grade]; list != nil {
		return list, err
	}
	return []debrief.StationReport{}, err
}

// A seriesOf is a series and whose it is.
type seriesOf struct {
	key, grade int64
	station    string
	of         *coach.Series
	legs       []*coach.Leg
}

// read reads gradings by their keys.
func (g *gradings) read(grades []int64) (map[int64][]debrief.StationReport, error) {
	g.series, g.legs, g.known = map[int64]*coach.Series{}, map[int64]*coach.Leg{}, map[string]phrase.Phrase{}
	list, err := g.readSeries(grades)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	at, keys := map[int64]*seriesOf{}, make([]int64, len(list))
	for i := range list {
		at[list[i].key], keys[i] = &list[i], list[i].key
	}
	legs, err := g.readLegs(keys, at)
	if err == nil {
		err = g.fillSeries(keys)
	}
	if err == nil && len(legs) > 0 {
		err = g.fillLegs(legs)
	}
	if err != nil {
		return nil, err
	}
	all := map[int64][]debrief.StationReport{}
	for i := range list {
		of := &list[i]
		of.finish()
		stations := all[of.grade]
		if n := len(stations); n == 0 || stations[n-1].Station != of.station {
			stations = append(stations, debrief.StationReport{
				Station:  of.station,
				Channels: []string{},
				Derived:  []string{},
			})
		}
		last := &stations[len(stations)-1]
		last.Series = append(last.Series, *of.of)
		all[of.grade] = stations
	}
	for _, stations := range all {
		for i := range stations {
			stations[i].Summary = debrief.Summarize(stations[i].Series)
		}
	}
	return all, nil
}

// finish puts the legs into their series, and fills in what follows from the rest.
func (of *seriesOf) finish() {
	s := of.of
	for _, l := range of.legs {
		if l.Headline.IsZero() {
			l.Headline = score.LegHeadline(l)
		}
		s.Legs = append(s.Legs, *l)
	}
	s.Missing = score.Lacking(s)
	if s.Headline.IsZero() {
		s.Headline = score.SeriesHeadline(s)
	}
}

// readSeries reads the series of gradings, in order.
func (g *gradings) readSeries(grades []int64) (list []seriesOf, err error) {
	among, arg := g.tx.Among("grade", grades)
	rows, err := g.tx.QueryContext(g.ctx, `SELECT key, grade, station, maneuver, standard, aircraft, verdict, score,
		mark, change, decision, `+headline("series", g.shape)+` FROM series WHERE `+among+` ORDER BY grade, n`, arg)
	return list, tables.Each(rows, err, func() error {
		s := &coach.Series{Legs: []coach.Leg{}, Checks: []coach.Check{}, Causes: []coach.Cause{}}
		of := seriesOf{of: s}
		var decision sql.NullString
		if err := rows.Scan(&of.key, &of.grade, &of.station, &s.Maneuver, &s.Standard, &s.Aircraft, &s.Verdict,
			&s.Score, &s.Grade, g.phrase(&s.Change), &decision, g.phrase(&s.Headline)); err != nil {
			return err
		}
		list, g.series[of.key] = append(list, of), s
		if decision.Valid {
			return json.Unmarshal([]byte(decision.String), &s.Decision)
		}
		return nil
	})
}

// readLegs reads the legs of series, in order, and returns their keys.
func (g *gradings) readLegs(series []int64, at map[int64]*seriesOf) (keys []int64, err error) {
	among, arg := g.tx.Among("series", series)
	rows, err := g.tx.QueryContext(g.ctx, `SELECT key, series, number, direction, outcome, reason, started, ended,
		change, verdict, score, mark, corrections, `+headline("legs", g.shape)+` FROM legs WHERE `+among+`
		ORDER BY series, n`, arg)
	return keys, tables.Each(rows, err, func() error {
		var key, of int64
		l := &coach.Leg{Points: []coach.Point{}, Checks: []coach.Check{}, Causes: []coach.Cause{}}
		err := rows.Scan(&key, &of, &l.Number, &l.Direction, &l.Outcome, g.phrase(&l.Reason), &l.Start, &l.End,
			g.phrase(&l.Change), &l.Verdict, &l.Score, &l.Grade, &l.Said, g.phrase(&l.Headline))
		if err != nil {
			return err
		}
		keys, g.legs[key] = append(keys, key), l
		at[of].legs = append(at[of].legs, l)
		return nil
	})
}

// fillSeries reads the checks and causes of series.
func (g *gradings) fillSeries(keys []int64) error {
	err := g.checks("series", keys, func(key int64, k *coach.Check) {
		s := g.series[key]
		s.Checks = append(s.Checks, *k)
	})
	if err != nil {
		return err
	}
	return g.causes("series", keys, func(key int64, c *coach.Cause) {
		s := g.series[key]
		s.Causes = append(s.Causes, *c)
	})
}

// fillLegs reads what belongs to legs.
func (g *gradings) fillLegs(keys []int64) error {
	err := g.checks("leg", keys, func(key int64, k *coach.Check) {
		l := g.legs[key]
		l.Checks = append(l.Checks, *k)
	})
	if err != nil {
		return err
	}
	err = g.causes("leg", keys, func(key int64, c *coach.Cause) {
		l := g.legs[key]
		l.Causes = append(l.Causes, *c)
	})
	if err != nil || !g.points {
		return err
	}
	among, arg := g.tx.Among("leg", keys)
	rows, err := g.tx.QueryContext(g.ctx, `SELECT leg, n, point FROM points WHERE `+among+` ORDER BY leg, n`, arg)
	return tables.Each(rows, err, func() error {
		var key int64
		var n int
		var text []byte
		if err := rows.Scan(&key, &n, &text); err != nil {
			return err
		}
		l := g.legs[key]
		var p coach.Point
		if err := json.Unmarshal(text, &p); err != nil {
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

// checks reads the checks of series or of legs, whichever the column says, in order, with the key of each one's.
func (g *gradings) checks(column string, keys []int64, take func(int64, *coach.Check)) error {
	among, arg := g.tx.Among(column, keys)
	rows, err := g.tx.QueryContext(g.ctx, `SELECT `+column+`, id, label, kind, channel, turn, at, value, unit, aim,
		met_low, met_high, near_low, near_high, weight, verdict, score, words, reason, note, uncertainty, doubt
		FROM checks WHERE `+among+` ORDER BY `+column+`, n`, arg)
	var k coach.Check
	var key int64
	return tables.Each(rows, err, func() error {
		k = coach.Check{}
		err := rows.Scan(&key, &k.ID, &k.Label, &k.Kind, &k.Channel, &k.Turn, &k.At, &k.Value, &k.Unit, &k.Aim,
			&k.Met[0], &k.Met[1], &k.Near[0], &k.Near[1], &k.Weight, &k.Verdict,
			&k.Score, &k.Words, g.phrase(&k.Reason), g.phrase(&k.Note), &k.Uncertainty, &k.Doubt)
		if err == nil {
			take(key, &k)
		}
		return err
	})
}

// causes reads the causes of series or of legs, as checks does.
func (g *gradings) causes(column string, keys []int64, take func(int64, *coach.Cause)) error {
	among, arg := g.tx.Among(column, keys)
	rows, err := g.tx.QueryContext(g.ctx, `SELECT `+column+`, id, number, share, evidence, advice, minor
		FROM causes WHERE `+among+` ORDER BY `+column+`, n`, arg)
	return tables.Each(rows, err, func() error {
		var key int64
		var c coach.Cause
		err := rows.Scan(&key, &c.ID, &c.Leg, &c.Share, g.phrase(&c.Evidence), g.phrase(&c.Advice), &c.Minor)
		if err == nil {
			take(key, &c)
		}
		return err
	})
}

// phrase reads a column of English, and what was read before at once: there are few sentences among many rows.
func (g *gradings) phrase(p *phrase.Phrase) sql.Scanner { return readAgain{p, g.known} }

// A readAgain is a readPhrase that remembers.
type readAgain struct {
	*phrase.Phrase
	known map[string]phrase.Phrase
}

// Scan reads a column of text.
func (r readAgain) Scan(v any) error {
	text, ok := v.(string)
	if !ok {
		return readPhrase{r.Phrase}.Scan(v)
	}
	p, ok := r.known[text]
	if !ok {
		p = phrase.Read(text)
		r.known[text] = p
	}
	*r.Phrase = p
	return nil
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
