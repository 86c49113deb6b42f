package query

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// Limits of a trend.
const (
	mostTrendSessions = 1_000 // from which streaks and things to change are counted
	mostTrendPoints   = 60    // sessions whose checks are shown
	mostThings        = 8
)

// Trend shows a maneuver over the latest sessions of a filter: that of the filter, else the one with the most legs in
// them. Legs that fitted no maneuver clearly count only when there is nothing else.
func (b Questions) Trend(ctx context.Context, f logbook.Filter) (*logbook.Trend, error) {
	t := &logbook.Trend{Version: logbook.FormatVersion, Checks: []logbook.TrendCheck{}, Things: []logbook.Thing{}}
	return t, b.Ask(ctx, func(tx *tables.Tx) error {
		w, err := b.where(ctx, tx, &f)
		if err != nil {
			return err
		}
		q := trendQuery{ctx, tx, w, f.Maneuver, min(mostTrendSessions, w.most)}
		if q.maneuver == "" {
			if err := q.mostFlown(); err != nil || q.maneuver == "" {
				return err
			}
		}
		latest, err := q.streak(t)
		if err != nil || t.Maneuver == nil {
			return err
		}
		if err := q.things(t); err != nil {
			return err
		}
		return q.checks(t, latest)
	})
}

type trendQuery struct {
	ctx      context.Context
	tx       *tables.Tx
	w        *where
	maneuver string
	most     int // sessions
}

// mostFlown finds the maneuver to show; "" when nothing matches.
func (q *trendQuery) mostFlown() error {
	w := q.w.clone()
	w.and("s.legs > 0")
	err := q.tx.QueryRowContext(q.ctx, `SELECT f.maneuver, sum(f.legs) FROM (SELECT s.key FROM sessions s`+w.String()+`
			ORDER BY s.began DESC, s.id DESC LIMIT ?) AS latest CROSS JOIN flown f ON f.session = latest.key
		GROUP BY f.maneuver ORDER BY CASE WHEN f.maneuver = '`+coach.Unclear+`' THEN 1 ELSE 0 END, 2 DESC, 1 LIMIT 1`,
		append(w.args, q.most)...).
		Scan(&q.maneuver, new(int))
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	return err
}

// latest is a query for columns of the latest sessions s of the filter in which f, the maneuver, was flown, newest
// first. CROSS JOIN fixes the order of the tables: SQLite keeps no statistics here, and would otherwise read all rows
// of the maneuver for the few sessions of a student.
func (q *trendQuery) latest(columns string, limit int) (query string, args []any) {
	w := q.w.clone()
	w.and("f.maneuver = ?", q.maneuver)
	return `SELECT ` + columns + ` FROM sessions s CROSS JOIN flown f ON f.session = s.key` + w.String() + `
		ORDER BY s.began DESC, s.id DESC LIMIT ?`, append(w.args, limit)
}

// streak counts sessions, legs and runs of good legs, and returns the latest sessions that have a finished leg, oldest
// first.
func (q *trendQuery) streak(t *logbook.Trend) (finished []trendSession, err error) {
	var all []trendSession // newest first
	query, args := q.latest("s.key, s.id, s.began, f.title, f.legs, f.finished, f.head, f.tail, f.best",
		q.most+1)
	rows, err := q.tx.QueryContext(q.ctx, query, args...)
	err = tables.Each(rows, err, func() error {
		var s trendSession
		err := rows.Scan(&s.key, &s.id, &s.began, &s.title, &s.legs, &s.finished, &s.head, &s.tail, &s.best)
		all = append(all, s)
		return err
	})
	if err != nil || len(all) == 0 {
		return nil, err
	}
	t.Maneuver = &logbook.Named{Name: q.maneuver, Title: all[0].title}
	if t.More = len(all) > q.most; t.More {
		all = all[:q.most]
	}
	t.Sessions = len(all)
	for _, s := range slices.Backward(all) {
		t.Legs += s.legs
		if s.finished > 0 {
			finished = append(finished, s)
			t.Streak.Take(s.id, s.finished, s.head, s.tail, s.best)
		}
	}
	return finished[max(0, len(finished)-mostTrendPoints):], nil
}

type trendSession struct {
	key, began                       int64
	id, title                        string
	legs, finished, head, tail, best int
}

// things counts the things to change.
func (q *trendQuery) things(t *logbook.Trend) error {
	latest, args := q.latest("s.key, s.id, s.began", q.most)
	rows, err := q.tx.QueryContext(q.ctx, `SELECT words, legs, sessions, id FROM (
			SELECT g.words AS words, latest.id AS id, sum(g.legs) OVER (PARTITION BY g.words) AS legs,
				count(*) OVER (PARTITION BY g.words) AS sessions,
				row_number() OVER (PARTITION BY g.words ORDER BY latest.began DESC, latest.id DESC) AS place
			FROM (`+latest+`) AS latest CROSS JOIN things g ON g.session = latest.key
			WHERE g.maneuver = ?) AS found
		WHERE place = 1 ORDER BY legs DESC, words LIMIT ?`, append(args, q.maneuver, mostThings)...)
	return tables.Each(rows, err, func() error {
		var x logbook.Thing
		err := rows.Scan(readPhrase{&x.Words}, &x.Legs, &x.Sessions, &x.Session)
		t.Things = append(t.Things, x)
		return err
	})
}

// checks reads the checks of the latest sessions.
func (q *trendQuery) checks(t *logbook.Trend, latest []trendSession) error {
	measured, at := make([]logbook.MeasuredSession, len(latest)), map[int64]int{}
	args := []any{q.maneuver}
	for i := range latest {
		measured[i].ID, measured[i].Began = latest[i].id, logbook.Zulu(tables.Moment(latest[i].began))
		at[latest[i].key] = i
		args = append(args, latest[i].key)
	}
	if len(latest) > 0 {
		rows, err := q.tx.QueryContext(q.ctx, `SELECT session, checks FROM measured WHERE maneuver = ?
			AND session IN (?`+strings.Repeat(", ?", len(latest)-1)+`)`, args...)
		err = tables.Each(rows, err, func() error {
			var key int64
			var text []byte
			if err := rows.Scan(&key, &text); err != nil {
				return err
			}
			return json.Unmarshal(text, &measured[at[key]].Checks)
		})
		if err != nil {
			return err
		}
	}
	t.Checks = logbook.TrendChecks(measured)
	return nil
}
