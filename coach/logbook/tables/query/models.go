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
)

const modelColumns = `SELECT s.id AS id, l.n AS n, s.began AS began, coalesce((SELECT name FROM students
	WHERE key = s.student), '') AS student, l.mark AS mark, x.aircraft = ?3 AS same, l.score AS score`

// Which of those that were found: the best, or the best of each session.
const (
	bestLeg = ` AND x.aircraft = ?3 ORDER BY l.score DESC, s.began DESC, l.n LIMIT 1`

	eachBefore = `SELECT id, n, began, student, mark, same, score FROM (`
	eachPlace  = `, row_number() OVER (PARTITION BY s.key ORDER BY l.score DESC, l.n) AS place`
	eachAfter  = `) AS legs WHERE place = 1 ORDER BY same DESC, began DESC, id DESC LIMIT 6`
)

// SQLite is told where to begin: with the sessions, of which there are few.
const modelJoins = ` s CROSS JOIN flown f ON f.session = s.key AND f.maneuver = ?1 CROSS JOIN grades g
	ON g.session = s.key AND g.n = 1
	CROSS JOIN series x ON x.grade = g.key AND x.maneuver = ?1 CROSS JOIN legs l ON l.series = x.key
	AND l.direction = ?2 AND l.outcome = '` + coach.Finished + `'`

// Where to look: in the other sessions of the student, or in those of others that are kept.
const (
	ownSessions = `(SELECT * FROM sessions WHERE student IS NOT DISTINCT FROM ?4
		AND (?4 IS NOT NULL OR station = ?5) AND key <> ?6 ORDER BY began DESC, id DESC LIMIT ?7)`
	keptSessions = `(SELECT * FROM sessions WHERE keep = 1 AND student IS DISTINCT FROM ?4 AND key <> ?5
		ORDER BY began DESC, id DESC LIMIT ?6)`
)

// overruled finds the sessions in which something was overruled: their rows hold what was computed, so that their
// legs are graded before they are compared. What somebody wrote has no bare quotation mark in JSON.
const overruled = `s.judging LIKE '%"overruled":[{%'`

// chosen says which of the legs that were found are taken: what stands before the query, after its columns, and at its
// end.
type chosen struct{ before, column, after string }

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
		best, err := b.models(ctx, tx, &is, ownSessions, chosen{after: bestLeg},
			is.student, is.station, key, mostModelSessions)
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
		kept, err := b.models(ctx, tx, &is, keptSessions, chosen{eachBefore, eachPlace, eachAfter},
			is.student, key, mostModelSessions)
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

// models looks for legs in some sessions: the first as computed, where nothing was overruled, and all of the others as
// they stand. args are those of the sessions, from the fourth.
func (b Questions) models(
	ctx context.Context, tx *tables.Tx, is *wantedLeg, sessions string, of chosen, args ...any,
) ([]ranked, error) {
	args = append([]any{is.maneuver, is.direction, is.aircraft}, args...)
	from := ` FROM ` + sessions + modelJoins
	if b.ShapeIs() < tables.ShapeOfJudging {
		return modelsOf(ctx, tx, of.before+modelColumns+of.column+from+` WHERE 1 = 1`+of.after, args)
	}
	list, err := modelsOf(ctx, tx, of.before+modelColumns+of.column+from+` WHERE NOT `+overruled+of.after, args)
	if err != nil {
		return nil, err
	}
	legs, err := modelsOf(ctx, tx, modelColumns+from+` WHERE `+overruled, args)
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

func modelsOf(ctx context.Context, tx *tables.Tx, q string, args []any) ([]ranked, error) {
	var list []ranked
	rows, err := tx.QueryContext(ctx, q, args...)
	return list, tables.Each(rows, err, func() error {
		var m ranked
		err := rows.Scan(&m.Session, &m.Leg, &m.began, &m.Student, &m.Grade, &m.same, &m.Score)
		m.Began = logbook.Zulu(tables.Moment(m.began))
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
