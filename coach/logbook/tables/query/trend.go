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
	mostTrendSessions = 60
	mostThings        = 8
)

// Trend shows a maneuver over the sessions of a filter: that of the filter, else the one with the most legs.
// Legs that fitted no maneuver clearly count only when there is nothing else.
func (b Questions) Trend(ctx context.Context, f logbook.Filter) (*logbook.Trend, error) {
	t := &logbook.Trend{Version: logbook.FormatVersion, Checks: []logbook.TrendCheck{}, Things: []logbook.Thing{}}
	return t, b.Ask(ctx, func(tx *tables.Tx) error {
		q := trendQuery{ctx, tx, b.where(tx, &f)}
		name, err := q.maneuver(f.Maneuver)
		if err != nil || name == nil {
			return err
		}
		t.Maneuver = name
		latest, err := q.streak(t, name.Name)
		if err != nil {
			return err
		}
		if err := q.things(t, name.Name); err != nil {
			return err
		}
		return q.checks(t, name.Name, latest)
	})
}

type trendQuery struct {
	ctx context.Context
	tx  *tables.Tx
	w   *where
}

// maneuver finds the one to show, with its latest title; nil when nothing matches.
func (q *trendQuery) maneuver(name string) (*logbook.Named, error) {
	from, w := "flown f", *q.w
	if len(w.parts) > 0 {
		from = "sessions s CROSS JOIN flown f ON f.session = s.key"
	}
	if name != "" {
		w = *q.of("f", name)
	}
	var n logbook.Named
	err := q.tx.QueryRowContext(q.ctx, `SELECT f.maneuver, sum(f.legs) FROM `+from+w.String()+
		` GROUP BY f.maneuver ORDER BY CASE WHEN f.maneuver = '`+coach.Unclear+`' THEN 1 ELSE 0 END, 2 DESC, 1 LIMIT 1`,
		w.args...).
		Scan(&n.Name, new(int))
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	of := *q.of("f", n.Name)
	err = q.tx.QueryRowContext(q.ctx, `SELECT f.title FROM `+from+of.String()+` ORDER BY f.session DESC LIMIT 1`,
		of.args...).
		Scan(&n.Title)
	return &n, err
}

// of is the filter with the maneuver of a table.
func (q *trendQuery) of(table, maneuver string) *where {
	w := &where{slices.Clone(q.w.parts), slices.Clone(q.w.args)}
	w.and(table+".maneuver = ?", maneuver)
	return w
}

// streak counts sessions, legs and runs of good legs over all matches, and returns the keys of
// the latest sessions that have a finished leg, oldest first.
func (q *trendQuery) streak(t *logbook.Trend, maneuver string) (latest []trendSession, err error) {
	w := q.of("f", maneuver)
	from := "flown f CROSS JOIN sessions s ON s.key = f.session"
	if len(q.w.parts) > 0 {
		from = "sessions s CROSS JOIN flown f ON f.session = s.key"
	}
	rows, err := q.tx.QueryContext(q.ctx,
		`SELECT s.key, s.id, s.began, f.legs, f.finished, f.head, f.tail, f.best FROM `+from+
			w.String()+` ORDER BY s.began, s.id`, w.args...)
	err = tables.Each(rows, err, func() error {
		var s trendSession
		var legs, finished, head, tail, best int
		if err := rows.Scan(&s.key, &s.id, &s.began, &legs, &finished, &head, &tail, &best); err != nil {
			return err
		}
		t.Sessions++
		t.Legs += legs
		if finished == 0 {
			return nil
		}
		latest = append(latest, s)
		t.Streak.Take(s.id, finished, head, tail, best)
		return nil
	})
	return latest[max(0, len(latest)-mostTrendSessions):], err
}

type trendSession struct {
	key, began int64
	id         string
}

// things counts the things to change. CROSS JOIN fixes the order of the tables: the database keeps no statistics of
// its own, and would otherwise read all rows of the maneuver for the few sessions of a student.
func (q *trendQuery) things(t *logbook.Trend, maneuver string) error {
	if len(q.w.parts) == 0 {
		return q.allThings(t, maneuver)
	}
	w := q.of("g", maneuver)
	rows, err := q.tx.QueryContext(q.ctx, `SELECT words, legs, sessions, id FROM (
			SELECT g.words AS words, s.id AS id, sum(g.legs) OVER (PARTITION BY g.words) AS legs,
				count(*) OVER (PARTITION BY g.words) AS sessions,
				row_number() OVER (PARTITION BY g.words ORDER BY s.began DESC, s.id DESC) AS place
			FROM sessions s CROSS JOIN things g ON g.session = s.key`+w.String()+`) AS found
		WHERE place = 1 ORDER BY legs DESC, words LIMIT ?`, append(w.args, mostThings)...)
	return tables.Each(rows, err, func() error {
		var x logbook.Thing
		err := rows.Scan(readPhrase{&x.Words}, &x.Legs, &x.Sessions, &x.Session)
		t.Things = append(t.Things, x)
		return err
	})
}

// allThings counts without a filter: the sums from an index, then the latest session of each.
func (q *trendQuery) allThings(t *logbook.Trend, maneuver string) error {
	rows, err := q.tx.QueryContext(q.ctx, `SELECT words, sum(legs), count(*) FROM things WHERE maneuver = ?
		GROUP BY words ORDER BY 2 DESC, 1 LIMIT ?`, maneuver, mostThings)
	err = tables.Each(rows, err, func() error {
		var x logbook.Thing
		err := rows.Scan(readPhrase{&x.Words}, &x.Legs, &x.Sessions)
		t.Things = append(t.Things, x)
		return err
	})
	if err != nil {
		return err
	}
	for i := range t.Things {
		x := &t.Things[i]
		err := q.tx.QueryRowContext(q.ctx, `SELECT s.id FROM sessions s INDEXED BY sessions_began
			WHERE EXISTS (SELECT 1 FROM things g WHERE g.session = s.key AND g.maneuver = ? AND g.words = ?)
			ORDER BY s.began DESC, s.id DESC LIMIT 1`,
			maneuver, x.Words.String()).Scan(&x.Session)
		if err != nil {
			return err
		}
	}
	return nil
}

// checks reads the checks of the latest sessions.
func (q *trendQuery) checks(t *logbook.Trend, maneuver string, latest []trendSession) error {
	measured, at := make([]logbook.MeasuredSession, len(latest)), map[int64]int{}
	args := []any{maneuver}
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
