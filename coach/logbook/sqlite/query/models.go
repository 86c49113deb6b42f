package query

import (
	"context"
	"database/sql"
	"errors"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite/db"
)

// Limits on the search for models.
const (
	mostModelSessions = 1000 // the latest of a student
	mostKept          = 6
)

const modelColumns = `SELECT s.id, l.n, s.began, coalesce((SELECT name FROM students
	WHERE key = s.student), ''), l.mark, `

// The leg of a group is that with the highest score: SQLite's bare columns are of the row of max(). The database is
// told where to begin: with the sessions, of which there are few.
const modelJoins = ` CROSS JOIN flown f ON f.session = s.key AND f.maneuver = ?1 CROSS JOIN grades g
	ON g.session = s.key AND g.n = 1
	CROSS JOIN series x ON x.grade = g.key AND x.maneuver = ?1 CROSS JOIN legs l ON l.series = x.key
	AND l.direction = ?2 AND l.outcome = '` + coach.Finished + `'`

// Models finds legs to compare a leg with; both fields are empty for a leg that is not in the logbook. A
// session without a student is compared with the others without one at that station.
func (b Questions) Models(ctx context.Context, id string, leg int) (*logbook.Models, error) {
	m := &logbook.Models{Version: logbook.FormatVersion, Kept: []logbook.Model{}}
	return m, b.Ask(ctx, func(tx *sql.Tx) error {
		key, _, err := db.Find(tx, id)
		if err != nil {
			return err
		}
		var maneuver, direction, aircraft, station string
		var student sql.NullInt64
		err = tx.QueryRowContext(ctx, `SELECT x.maneuver, l.direction, x.aircraft, s.station, s.student FROM sessions s
			JOIN grades g ON g.session = s.key AND g.n = 1
			JOIN series x ON x.grade = g.key JOIN legs l ON l.series = x.key WHERE s.key = ?
			AND l.n = ?`, key, leg).Scan(&maneuver, &direction, &aircraft, &station, &student)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		if err != nil {
			return err
		}
		best, err := models(ctx, tx,
			modelColumns+`l.score FROM (SELECT * FROM sessions WHERE student IS ?3 AND (?3 IS NOT NULL OR station = ?4)
				AND key <> ?5 ORDER BY began DESC, id DESC LIMIT ?6) s`+modelJoins+
				` WHERE x.aircraft = ?7 ORDER BY l.score DESC, s.began DESC, l.n
					LIMIT 1`, maneuver, direction, student, station, key, mostModelSessions, aircraft)
		if err != nil {
			return err
		}
		if len(best) > 0 {
			m.Best = &best[0]
		}
		m.Kept, err = models(ctx, tx,
			modelColumns+`max(l.score) FROM (SELECT * FROM sessions WHERE keep = 1 AND student IS NOT ?3 AND key <> ?4
				ORDER BY began DESC, id DESC LIMIT ?5) s`+modelJoins+
				` GROUP BY s.key ORDER BY x.aircraft = ?6 DESC, s.began DESC, s.id DESC
					LIMIT ?7`, maneuver, direction, student, key, mostModelSessions, aircraft, mostKept)
		return err
	})
}

func models(ctx context.Context, tx *sql.Tx, q string, args ...any) ([]logbook.Model, error) {
	list := []logbook.Model{}
	rows, err := tx.QueryContext(ctx, q, args...)
	return list, db.Each(rows, err, func() error {
		var m logbook.Model
		var began int64
		err := rows.Scan(&m.Session, &m.Leg, &began, &m.Student, &m.Grade, &m.Score)
		m.Began = logbook.Zulu(db.Moment(began))
		list = append(list, m)
		return err
	})
}
