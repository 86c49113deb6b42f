package logbook

import (
	"cmp"
	"context"
	"database/sql"
	"slices"

	"halfturn/coach"
)

// How much of a trend is told.
const (
	mostTrendSessions = 60
	mostThings        = 8
)

// Trend tells how a maneuver went over the sessions of a filter: that of the filter, else the one
// with the most legs. Of the checks it tells the latest 60 sessions.
func (b *Book) Trend(ctx context.Context, f Filter) (*Trend, error) {
	t := &Trend{Version: formatVersion, Checks: []TrendCheck{}, Things: []Thing{}}
	w := f.where()
	return t, b.ask(ctx, func(tx *sql.Tx) error {
		q := trendQuery{ctx, tx, w}
		name, err := q.maneuver(f.Maneuver)
		if err != nil || name == nil {
			return err
		}
		t.Maneuver = name
		w.and("f.maneuver = ?", name.Name)
		latest, err := q.streak(t)
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
	tx  *sql.Tx
	w   *where
}

// maneuver is the one to tell of; nil when nothing matches. Its title is the latest.
func (q *trendQuery) maneuver(name string) (*Named, error) {
	w := *q.w
	w.parts, w.args = slices.Clone(w.parts), slices.Clone(w.args)
	if name != "" {
		w.and("f.maneuver = ?", name)
	}
	var n Named
	var legs int
	err := q.tx.QueryRowContext(q.ctx, `SELECT f.maneuver, f.title, sum(f.legs) FROM flown f JOIN sessions s ON s.key = f.session`+w.String()+
		` GROUP BY f.maneuver ORDER BY 3 DESC, 1 LIMIT 1`, w.args...).Scan(&n.Name, &n.Title, &legs)
	if err == sql.ErrNoRows {
		return nil, nil
	}
	return &n, err
}

// streak counts sessions, legs and rows of good legs over all that match, and returns the keys of
// the latest sessions that have a finished leg, oldest first.
func (q *trendQuery) streak(t *Trend) (latest []trendSession, err error) {
	rows, err := q.tx.QueryContext(q.ctx, `SELECT s.key, s.id, s.began, f.legs, f.finished, f.head, f.tail, f.best FROM sessions s JOIN flown f ON f.session = s.key`+
		q.w.String()+` ORDER BY s.began, s.id`, q.w.args...)
	err = each(rows, err, func() error {
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
		t.Streak.take(s.id, finished, head, tail, best)
		return nil
	})
	return latest[max(0, len(latest)-mostTrendSessions):], err
}

type trendSession struct {
	key, began int64
	id         string
}

// take goes on with the next session: head good legs from its first on, tail up to its last,
// best the longest row in it. Where the row that came in is as long as any, the latest counts.
func (s *Streak) take(id string, finished, head, tail, best int) {
	if in := s.Now + head; head > 0 && in >= s.Best {
		s.Best, s.Session = in, id
	}
	if best > 0 && best >= s.Best {
		s.Best, s.Session = best, id
	}
	if head == finished {
		s.Now += head
		return
	}
	s.Now = tail
}

// things counts what was the one thing to change.
func (q *trendQuery) things(t *Trend, maneuver string) error {
	if len(q.w.parts) == 1 { // no filter but the maneuver: nothing to join
		rows, err := q.tx.QueryContext(q.ctx, `SELECT words, sum(legs), count(*), max(session) FROM things WHERE maneuver = ? GROUP BY words ORDER BY 2 DESC, 1 LIMIT ?`, maneuver, mostThings)
		return q.readThings(t, rows, err)
	}
	rows, err := q.tx.QueryContext(q.ctx, `SELECT g.words, sum(g.legs), count(*), max(s.key) FROM sessions s JOIN flown f ON f.session = s.key
		JOIN things g ON g.session = s.key AND g.maneuver = f.maneuver`+q.w.String()+` GROUP BY g.words ORDER BY 2 DESC, 1 LIMIT ?`, append(slices.Clone(q.w.args), mostThings)...)
	return q.readThings(t, rows, err)
}

func (q *trendQuery) readThings(t *Trend, rows *sql.Rows, err error) error {
	var keys []int64
	err = each(rows, err, func() error {
		var x Thing
		var key int64
		err := rows.Scan(&x.Words, &x.Legs, &x.Sessions, &key)
		t.Things, keys = append(t.Things, x), append(keys, key)
		return err
	})
	for i, key := range keys {
		if err == nil {
			err = q.tx.QueryRowContext(q.ctx, `SELECT id FROM sessions WHERE key = ?`, key).Scan(&t.Things[i].Session)
		}
	}
	return err
}

// checks reads the checks of the latest sessions.
func (q *trendQuery) checks(t *Trend, maneuver string, latest []trendSession) error {
	by := map[string]*gathered{}
	stmt, err := q.tx.PrepareContext(q.ctx, `SELECT k.id, k.label, k.unit, k.turn, k.n, k.kind, k.aim, k.met_low, k.met_high, k.near_low, k.near_high, k.value, k.verdict
		FROM legs l JOIN series x ON x.key = l.series JOIN grades g ON g.key = x.grade JOIN checks k ON k.leg = l.key
		WHERE l.session = ? AND g.n = 1 AND x.maneuver = ? AND l.outcome = 'finished' AND k.weight >= 0 ORDER BY l.n, k.n`)
	if err != nil {
		return err
	}
	defer stmt.Close()
	for i := range latest {
		rows, err := stmt.QueryContext(q.ctx, latest[i].key, maneuver)
		err = each(rows, err, func() error {
			var k coach.Check
			var n int
			if err := rows.Scan(&k.ID, &k.Label, &k.Unit, &k.Turn, &n, &k.Kind, &k.Aim, &k.Met[0], &k.Met[1], &k.Near[0], &k.Near[1], &k.Value, &k.Verdict); err != nil {
				return err
			}
			g := by[k.ID]
			if g == nil {
				g = &gathered{}
				by[k.ID] = g
			}
			g.take(&latest[i], &k, n)
			return nil
		})
		if err != nil {
			return err
		}
	}
	all := make([]*gathered, 0, len(by))
	for _, g := range by {
		g.close()
		all = append(all, g)
	}
	slices.SortFunc(all, func(a, b *gathered) int {
		return cmp.Or(cmp.Compare(a.turn, b.turn), cmp.Compare(a.n, b.n), cmp.Compare(a.check.ID, b.check.ID))
	})
	for _, g := range all {
		t.Checks = append(t.Checks, g.check)
	}
	return nil
}

// gathered is a check as it comes together, session by session.
type gathered struct {
	check   TrendCheck
	turn    float64 // where it stands in the order
	n       int
	session *trendSession
	values  []float64
	met     int
}

// wholeTurn sorts what is judged over the leg as a whole behind all turn angles.
const wholeTurn = 1000

func (g *gathered) take(s *trendSession, k *coach.Check, n int) {
	if g.session != s {
		g.close()
		g.session = s
	}
	points := g.check.Points
	g.check = TrendCheck{ID: k.ID, Label: k.Label, Unit: k.Unit, Aim: k.Aim, Met: k.Met, Near: k.Near, Points: points}
	g.n = n
	switch {
	case k.Turn != nil:
		g.turn = *k.Turn
	case k.Kind == "set-up":
		g.turn = -1
	default:
		g.turn = wholeTurn
	}
	if k.Value != nil && k.Verdict != coach.NotMeasured {
		g.values = append(g.values, *k.Value)
		if k.Verdict == coach.Met {
			g.met++
		}
	}
}

// close makes the point of the session gathered last.
func (g *gathered) close() {
	if g.check.Points == nil {
		g.check.Points = []TrendPoint{}
	}
	if len(g.values) > 0 {
		slices.Sort(g.values)
		g.check.Points = append(g.check.Points, TrendPoint{Session: g.session.id, Began: zulu(moment(g.session.began)), Legs: len(g.values), Met: g.met,
			Low: g.values[0], Q1: quantile(g.values, 0.25), Median: quantile(g.values, 0.5), Q3: quantile(g.values, 0.75), High: g.values[len(g.values)-1]})
	}
	g.values, g.met = g.values[:0], 0
}

// quantile of sorted values, linear between order statistics: definition 7 of Hyndman and Fan,
// "Sample Quantiles in Statistical Packages", The American Statistician 50 (1996).
func quantile(sorted []float64, q float64) float64 {
	at := q * float64(len(sorted)-1)
	i := int(at)
	if i+1 == len(sorted) {
		return sorted[i]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}
