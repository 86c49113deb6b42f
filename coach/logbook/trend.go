package logbook

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// How much of a trend is told.
const (
	mostTrendSessions = 60
	mostThings        = 8
)

// Trend tells how a maneuver went over the sessions of a filter: that of the filter, else the one
// with the most legs, what fitted none clearly only when there is nothing else. Of the checks it tells the latest 60 sessions.
func (b *Book) Trend(ctx context.Context, f Filter) (*Trend, error) {
	t := &Trend{Version: formatVersion, Checks: []TrendCheck{}, Things: []Thing{}}
	w := b.where(&f)
	return t, b.ask(ctx, func(tx *sql.Tx) error {
		q := trendQuery{ctx, tx, w}
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
	tx  *sql.Tx
	w   *where
}

// maneuver is the one to tell of; nil when nothing matches. Its title is the latest.
func (q *trendQuery) maneuver(name string) (*Named, error) {
	from, w := "flown f", *q.w
	if len(w.parts) > 0 {
		from = "sessions s CROSS JOIN flown f ON f.session = s.key"
	}
	if name != "" {
		w = *q.of("f", name)
	}
	var n Named
	var legs int
	err := q.tx.QueryRowContext(q.ctx, `SELECT f.maneuver, f.title, sum(f.legs), max(f.session) FROM `+from+w.String()+` GROUP BY f.maneuver ORDER BY f.maneuver = ?, 3 DESC, 1 LIMIT 1`, append(slices.Clone(w.args), coach.Unclear)...).
		Scan(&n.Name, &n.Title, &legs, new(int64)) // the title is of the row with the latest session: SQLite's bare columns
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return &n, err
}

// of is the filter with the maneuver of a table.
func (q *trendQuery) of(table, maneuver string) *where {
	w := &where{slices.Clone(q.w.parts), slices.Clone(q.w.args)}
	w.and(table+".maneuver = ?", maneuver)
	return w
}

// streak counts sessions, legs and rows of good legs over all that match, and returns the keys of
// the latest sessions that have a finished leg, oldest first.
func (q *trendQuery) streak(t *Trend, maneuver string) (latest []trendSession, err error) {
	w := q.of("f", maneuver)
	from := "flown f CROSS JOIN sessions s ON s.key = f.session"
	if len(q.w.parts) > 0 {
		from = "sessions s CROSS JOIN flown f ON f.session = s.key"
	}
	rows, err := q.tx.QueryContext(q.ctx, `SELECT s.key, s.id, s.began, f.legs, f.finished, f.head, f.tail, f.best FROM `+from+
		w.String()+` ORDER BY s.began, s.id`, w.args...)
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

// things counts what was the one thing to change. The database is told where to begin: it holds no statistics of
// its own, and would read all that is known of the maneuver for the few sessions of a student.
func (q *trendQuery) things(t *Trend, maneuver string) error {
	if len(q.w.parts) == 0 {
		return q.allThings(t, maneuver)
	}
	w := q.of("g", maneuver)
	rows, err := q.tx.QueryContext(q.ctx, `SELECT g.words, sum(g.legs), count(*), s.id, max(s.began) FROM sessions s CROSS JOIN things g ON g.session = s.key`+
		w.String()+` GROUP BY g.words ORDER BY 2 DESC, 1 LIMIT ?`, append(w.args, mostThings)...)
	return each(rows, err, func() error {
		var x Thing
		err := rows.Scan(&x.Words, &x.Legs, &x.Sessions, &x.Session, new(int64))
		t.Things = append(t.Things, x)
		return err
	})
}

// allThings counts without a filter: all from an index, then the latest session of the few that are told.
func (q *trendQuery) allThings(t *Trend, maneuver string) error {
	rows, err := q.tx.QueryContext(q.ctx, `SELECT words, sum(legs), count(*) FROM things WHERE maneuver = ? GROUP BY words ORDER BY 2 DESC, 1 LIMIT ?`, maneuver, mostThings)
	err = each(rows, err, func() error {
		var x Thing
		err := rows.Scan(&x.Words, &x.Legs, &x.Sessions)
		t.Things = append(t.Things, x)
		return err
	})
	if err != nil {
		return err
	}
	for i := range t.Things {
		x := &t.Things[i]
		err := q.tx.QueryRowContext(q.ctx, `SELECT s.id FROM sessions s INDEXED BY sessions_began WHERE EXISTS (SELECT 1 FROM things g WHERE g.session = s.key AND g.maneuver = ? AND g.words = ?) ORDER BY s.began DESC, s.id DESC LIMIT 1`,
			maneuver, x.Words).Scan(&x.Session)
		if err != nil {
			return err
		}
	}
	return nil
}

// checks reads the checks of the latest sessions.
func (q *trendQuery) checks(t *Trend, maneuver string, latest []trendSession) error {
	stmt, err := q.tx.PrepareContext(q.ctx, `SELECT checks FROM measured WHERE session = ? AND maneuver = ?`)
	if err != nil {
		return err
	}
	defer stmt.Close()
	by := map[string]*summed{}
	var all []*summed
	for i := range latest {
		var text []byte
		if err := stmt.QueryRowContext(q.ctx, latest[i].key, maneuver).Scan(&text); err != nil {
			return err
		}
		var list []summed
		if err := json.Unmarshal(text, &list); err != nil {
			return err
		}
		for j := range list {
			k := &list[j]
			points := k.Points
			if len(points) > 0 {
				points[0].Session, points[0].Began = latest[i].id, zulu(moment(latest[i].began))
				points[0].Judged = Judged{k.Aim, k.Met, k.Near}
			}
			if was := by[k.ID]; was != nil {
				k.Points = append(was.Points, points...)
				*was = *k
				continue
			}
			by[k.ID], all = k, append(all, k)
		}
	}
	slices.SortFunc(all, func(a, b *summed) int {
		return cmp.Or(cmp.Compare(a.Turn, b.Turn), cmp.Compare(a.N, b.N), cmp.Compare(a.ID, b.ID))
	})
	for _, k := range all {
		t.Checks = append(t.Checks, k.TrendCheck)
	}
	return nil
}

// summed is a check over the legs of one session: at most one point, without session and date.
type summed struct {
	TrendCheck
	Turn float64 `json:"turn"` // where it stands in the order
	N    int     `json:"n"`
}

// wholeTurn sorts what is judged over the leg as a whole behind all turn angles.
const wholeTurn = 1000

// gathering is the checks of the finished legs of one maneuver, as they come.
type gathering map[string]*gathered

type gathered struct {
	summed
	values []float64
	met    int
}

// take adds the checks of a leg. Label, aim and bands are those of the last.
func (g gathering) take(checks []coach.Check) {
	for n := range checks {
		k := &checks[n]
		c := g[k.ID]
		if c == nil {
			c = &gathered{}
			g[k.ID] = c
		}
		c.TrendCheck, c.N = TrendCheck{ID: k.ID, Label: k.Label, Unit: k.Unit, Aim: k.Aim, Met: k.Met, Near: k.Near, Points: []TrendPoint{}}, n
		switch {
		case k.Turn != nil:
			c.Turn = *k.Turn
		case kinds.Named(k.Kind).Looks == check.BeforeTurn:
			c.Turn = -1
		default:
			c.Turn = wholeTurn
		}
		if k.Value != nil && k.Verdict != coach.NotMeasured {
			c.values = append(c.values, *k.Value)
			if k.Verdict == coach.Met {
				c.met++
			}
		}
	}
}

// sum makes the point of each check.
func (g gathering) sum() []summed {
	list := make([]summed, 0, len(g))
	for _, c := range g {
		if v := c.values; len(v) > 0 {
			slices.Sort(v)
			c.Points = append(c.Points, TrendPoint{Legs: len(v), Met: c.met, Low: v[0], Q1: quantile(v, 0.25), Median: quantile(v, 0.5), Q3: quantile(v, 0.75), High: v[len(v)-1]})
		}
		list = append(list, c.summed)
	}
	slices.SortFunc(list, func(a, b summed) int { return cmp.Compare(a.N, b.N) })
	return list
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
