package query

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"

	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// Limits on the search for models.
const (
	mostModelSessions = 1000 // the latest of a student
	mostKept          = 6
	keptAtOnce        = 200 // sessions of others that are looked at before it is seen whether that is enough
)

// A search looks for legs in some sessions.
type search struct {
	sessions string // a query for the sessions, the newest first
	args     []any
	atOnce   int // of which legs are read
	best     chosen
}

// chosen says which of the legs that were found are taken: a column beside those that there are, a condition on the
// series, and what stands at the end. The last argument of one or the other is the aircraft.
type chosen struct{ column, condition, end string }

var (
	bestLeg = chosen{
		condition: ` AND x.aircraft = ?`,
		end:       ` ORDER BY score DESC, began DESC, n LIMIT 1`,
	}
	bestOfEachSession = chosen{
		column: `, row_number() OVER (PARTITION BY s.key ORDER BY l.score DESC, l.n) AS place`,
		end: ` WHERE place = 1 ORDER BY CASE WHEN aircraft = ? THEN 0 ELSE 1 END, began DESC, id DESC
			LIMIT 6`,
	}
)

// own are the latest other sessions of the student of a leg; of one without a student those at the station without one.
func (is *wantedLeg) own(key int64) search {
	whose, of := "student = ?", any(is.student.Int64)
	if !is.student.Valid { // no index finds what IS NOT DISTINCT FROM holds for
		whose, of = "student IS NULL AND station = ?", is.station
	}
	return search{
		sessions: `SELECT * FROM sessions WHERE ` + whose + ` AND key <> ? ORDER BY began DESC, id DESC LIMIT ?`,
		args:     []any{of, key, mostModelSessions},
		atOnce:   mostModelSessions,
		best:     bestLeg,
	}
}

// kept are the latest sessions of others that are kept.
func (is *wantedLeg) kept(key int64) search {
	return search{
		sessions: `SELECT * FROM sessions WHERE keep = 1 AND student IS DISTINCT FROM ? AND key <> ?
			ORDER BY began DESC, id DESC LIMIT ?`,
		args:   []any{is.student, key, mostModelSessions},
		atOnce: keptAtOnce,
		best:   bestOfEachSession,
	}
}

// overruled finds the sessions in which something was overruled: their rows hold what was computed, so that their
// legs are graded before they are compared. What somebody wrote has no bare quotation mark in JSON.
const overruled = `s.judging LIKE '%"overruled":[{%'`

// A wantedLeg is what a model must be like.
type wantedLeg struct {
	maneuver, direction, aircraft, station string
	student                                sql.NullInt64
}

// A ranked model knows what it is ordered by.
type ranked struct {
	logbook.Model
	began int64
	same  bool // in the same aircraft
}

// Models finds legs to compare a leg with, by their grades as they stand; both fields are empty for a leg that is not
// in the logbook. A session without a student is compared with the others without one at that station.
func (b Questions) Models(ctx context.Context, id string, leg int) (*logbook.Models, error) {
	m := &logbook.Models{Version: logbook.FormatVersion, Kept: []logbook.Model{}}
	return m, b.Ask(ctx, func(tx *tables.Tx) error {
		key, _, err := tables.Find(tx, id)
		if err != nil {
			return err
		}
		var is wantedLeg
		err = tx.QueryRowContext(ctx, `SELECT x.maneuver, l.direction, x.aircraft, s.station, s.student FROM sessions s
			JOIN grades g ON g.session = s.key AND g.n = 1
			JOIN series x ON x.grade = g.key JOIN legs l ON l.series = x.key WHERE s.key = ?
			AND l.n = ?`, key, leg).Scan(&is.maneuver, &is.direction, &is.aircraft, &is.station, &is.student)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		if err != nil {
			return err
		}
		best, err := b.models(ctx, tx, &is, is.own(key))
		if err != nil {
			return err
		}
		best = slices.DeleteFunc(best, func(r ranked) bool { return !r.same })
		slices.SortStableFunc(best, func(x, y ranked) int {
			return cmp.Or(cmp.Compare(y.Score, x.Score), cmp.Compare(y.began, x.began), cmp.Compare(x.Leg, y.Leg))
		})
		if len(best) > 0 {
			m.Best = &best[0].Model
		}
		kept, err := b.models(ctx, tx, &is, is.kept(key))
		m.Kept = bestOfEach(kept)
		return err
	})
}

// bestOfEach keeps the best leg of each session: those in the same aircraft first, then the latest.
func bestOfEach(all []ranked) []logbook.Model {
	slices.SortStableFunc(all, func(x, y ranked) int {
		return cmp.Or(cmp.Compare(x.Session, y.Session), cmp.Compare(y.Score, x.Score), cmp.Compare(x.Leg, y.Leg))
	})
	all = slices.CompactFunc(all, func(x, y ranked) bool { return x.Session == y.Session })
	first := func(x ranked) int {
		if x.same {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(all, func(x, y ranked) int {
		return cmp.Or(first(x)-first(y), cmp.Compare(y.began, x.began), cmp.Compare(y.Session, x.Session))
	})
	list := []logbook.Model{}
	for i := range all[:min(len(all), mostKept)] {
		list = append(list, all[i].Model)
	}
	return list
}

// models looks for legs: the best as computed, where nothing was overruled, and all of the others as they stand.
func (b Questions) models(ctx context.Context, tx *tables.Tx, is *wantedLeg, in search) ([]ranked, error) {
	asComputed, judged, err := b.candidates(ctx, tx, is, in)
	if err != nil {
		return nil, err
	}
	var list []ranked
	for some := range slices.Chunk(asComputed, in.atOnce) {
		more, err := modelsOf(ctx, tx, is, some, in.best)
		if err != nil {
			return nil, err
		}
		if list = append(list, more...); countSame(list) >= mostKept { // older ones would come after these
			break
		}
	}
	legs, err := modelsOf(ctx, tx, is, judged, chosen{})
	if err != nil {
		return nil, err
	}
	graded := map[string]map[int]*coach.Leg{}
	for i := range legs {
		l := &legs[i]
		if graded[l.Session] == nil {
			if graded[l.Session], err = b.standing(ctx, tx, l.Session); err != nil {
				return nil, err
			}
		}
		if is := graded[l.Session][l.Leg]; is != nil {
			l.Score, l.Grade = is.Score, is.Grade
		}
	}
	return append(list, legs...), nil
}

// countSame is how many are in the same aircraft.
func countSame(list []ranked) (n int) {
	for i := range list {
		if list[i].same {
			n++
		}
	}
	return n
}

// candidates are the sessions in which the maneuver was flown, by their keys, the newest first: those in which nothing
// was overruled, and the others. They are found by a question of their own: PostgreSQL does not know how few they are,
// and would read the legs of all sessions.
func (b Questions) candidates(
	ctx context.Context, tx *tables.Tx, is *wantedLeg, in search,
) (asComputed, judged []int64, err error) {
	was := "0"
	if b.ShapeIs() >= tables.ShapeOfJudging {
		was = "CASE WHEN " + overruled + " THEN 1 ELSE 0 END"
	}
	rows, err := tx.QueryContext(ctx, `SELECT s.key, `+was+` FROM (`+in.sessions+`) s
		CROSS JOIN flown f ON f.session = s.key AND f.maneuver = ?
		ORDER BY s.began DESC, s.id DESC`, append(in.args, is.maneuver)...)
	return asComputed, judged, tables.Each(rows, err, func() error {
		var key int64
		var changed bool
		err := rows.Scan(&key, &changed)
		if changed {
			judged = append(judged, key)
		} else {
			asComputed = append(asComputed, key)
		}
		return err
	})
}

// modelsOf looks for legs in sessions. SQLite is told to begin with the sessions, of which there are few.
func modelsOf(ctx context.Context, tx *tables.Tx, is *wantedLeg, sessions []int64, of chosen) ([]ranked, error) {
	if len(sessions) == 0 {
		return nil, nil
	}
	among, arg := tx.Among("s.key", sessions)
	args := []any{is.maneuver, is.direction, arg}
	if of != (chosen{}) {
		args = append(args, is.aircraft)
	}
	var list []ranked
	rows, err := tx.QueryContext(ctx, `SELECT id, n, began, coalesce((SELECT name FROM students
			WHERE key = legs.student), ''), mark, aircraft, score
		FROM (SELECT s.id AS id, l.n AS n, s.began AS began, s.student AS student, l.mark AS mark,
				x.aircraft AS aircraft, l.score AS score`+of.column+`
			FROM sessions s CROSS JOIN grades g ON g.session = s.key AND g.n = 1
				CROSS JOIN series x ON x.grade = g.key AND x.maneuver = ? CROSS JOIN legs l ON l.series = x.key
				AND l.direction = ? AND l.outcome = '`+coach.Finished+`'
			WHERE `+among+of.condition+`) AS legs`+of.end, args...)
	return list, tables.Each(rows, err, func() error {
		var m ranked
		var aircraft string
		err := rows.Scan(&m.Session, &m.Leg, &m.began, &m.Student, &m.Grade, &aircraft, &m.Score)
		m.Began, m.same = logbook.Zulu(tables.Moment(m.began)), aircraft == is.aircraft
		list = append(list, m)
		return err
	})
}

// standing are the legs of a session by number, as they stand.
func (b Questions) standing(ctx context.Context, tx *tables.Tx, id string) (map[int]*coach.Leg, error) {
	key, _, err := tables.Find(tx, id)
	if err != nil {
		return nil, err
	}
	var grade int64
	err = tx.QueryRowContext(ctx, `SELECT key FROM grades WHERE session = ? AND n = 1`, key).Scan(&grade)
	if err != nil {
		return nil, err
	}
	stations, err := StationsFrom(ctx, tx, grade, b.ShapeIs())
	if err != nil {
		return nil, err
	}
	judging, err := Judging(tx, key)
	if err != nil {
		return nil, err
	}
	var all []coach.Series
	for i := range stations {
		all = append(all, stations[i].Series...)
	}
	legs := map[int]*coach.Leg{}
	for _, s := range assess.Series(all, &judging) {
		for i := range s.Legs {
			legs[len(legs)+1] = &s.Legs[i]
		}
	}
	return legs, nil
}
