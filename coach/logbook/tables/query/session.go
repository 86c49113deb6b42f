package query

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"math"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/stream/phrase"
)

// everyone is a limit that excludes nobody.
const everyone = math.MaxInt32

// Students lists who has flown, the one who flew last first; limit 0 is all.
func (b Questions) Students(ctx context.Context, limit int) (list []string, err error) {
	if limit <= 0 {
		limit = everyone
	}
	return list, b.Ask(ctx, func(tx *tables.Tx) (err error) {
		list, err = students(ctx, tx, limit)
		return err
	})
}

// Session returns one session; the error is a *logbook.NotFound when there is none.
func (b Questions) Session(ctx context.Context, id string) (*logbook.SessionDetail, error) {
	var d *logbook.SessionDetail
	return d, b.Ask(ctx, func(tx *tables.Tx) error {
		var key int64
		rows, err := tx.QueryContext(ctx, "SELECT "+b.rowColumns()+" FROM sessions s WHERE s.id = ?", id)
		err = tables.Each(rows, err, func() error {
			r, err := row(rows)
			if err == nil {
				key = r.key
				d = &logbook.SessionDetail{
					SessionRow: r.SessionRow,
					Version:    logbook.FormatVersion,
					Server:     r.server,
					Regrades:   []logbook.Regrade{},
				}
			}
			return err
		})
		if err != nil {
			return err
		}
		if d == nil {
			return &logbook.NotFound{ID: id}
		}
		if d.Said, err = Remarks(tx, key); err != nil {
			return err
		}
		d.Judging = logbook.NewJudging()
		if b.ShapeIs() >= tables.ShapeOfJudging {
			if d.Judging, err = Judging(tx, key); err != nil {
				return err
			}
		}
		return b.regrades(ctx, tx, key, d)
	})
}

func (b Questions) regrades(ctx context.Context, tx *tables.Tx, session int64, d *logbook.SessionDetail) error {
	rows, err := tx.QueryContext(ctx, `SELECT at, server, maneuver, standard, aircraft, score, grade,
		differences, `+headline("grades", b.ShapeIs())+`
		FROM grades
		WHERE session = ? AND n > 1 ORDER BY n`, session)
	return tables.Each(rows, err, func() error {
		var r logbook.Regrade
		var at int64
		var differences string
		if err := rows.Scan(&at, &r.Server, &r.Maneuver, &r.Standard, &r.Aircraft, &r.Score, &r.Grade,
			&differences, readPhrase{&r.Headline}); err != nil {
			return err
		}
		r.At = logbook.Zulu(tables.Moment(at))
		d.Regrades = append(d.Regrades, r)
		return json.Unmarshal([]byte(differences), &d.Regrades[len(d.Regrades)-1].Differences)
	})
}

// Last returns the id of the newest session.
func (b Questions) Last(ctx context.Context) (id string, err error) {
	err = b.Ask(ctx, func(tx *tables.Tx) error {
		err := tx.QueryRowContext(ctx, `SELECT id FROM sessions ORDER BY began DESC, id DESC LIMIT 1`).Scan(&id)
		if errors.Is(err, sql.ErrNoRows) {
			return logbook.Refuse(phrase.NoSessionYet.Of())
		}
		return err
	})
	return id, err
}

// Student finds a student by name, in whatever spelling.
func (b Questions) Student(ctx context.Context, name string) (s logbook.Student, err error) {
	if b.ShapeIs() < tables.ShapeOfNames {
		return s, nil
	}
	q := `SELECT name, uid FROM students WHERE fold = ?`
	if b.ShapeIs() < tables.ShapeOfIDs {
		q = `SELECT name, '' FROM students WHERE fold = ?`
	}
	return s, b.Ask(ctx, func(tx *tables.Tx) error {
		err := tx.QueryRowContext(ctx, q, names.Key(name)).Scan(&s.Name, &s.ID)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
}

// Spans lists all sessions, oldest first.
func (b Questions) Spans(ctx context.Context) (list []logbook.Span, err error) {
	return list, b.Ask(ctx, func(tx *tables.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT id, began, ended, keep FROM sessions ORDER BY began, id`)
		return tables.Each(rows, err, func() error {
			var s logbook.Span
			var began int64
			var ended sql.NullInt64
			err := rows.Scan(&s.ID, &began, &ended, &s.Keep)
			s.Began, s.Ended = tables.Moment(began), tables.MomentOr(ended)
			list = append(list, s)
			return err
		})
	})
}

// LeftOut lists the sessions that could not be entered.
func (b Questions) LeftOut(ctx context.Context) (l logbook.LeftOut, err error) {
	err = b.Ask(ctx, func(tx *tables.Tx) error { return b.leftOut(ctx, tx, &l) })
	return l, err
}

// mostLeftOut is how many are named.
const mostLeftOut = 50

func (b Questions) leftOut(ctx context.Context, tx *tables.Tx, l *logbook.LeftOut) error {
	l.Sessions = []logbook.LeftOutSession{}
	if b.ShapeIs() < tables.ShapeOfNames {
		return nil
	}
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM left_out`).Scan(&l.Total); err != nil || l.Total == 0 {
		return err
	}
	rows, err := tx.QueryContext(ctx, `SELECT id, why FROM left_out ORDER BY id DESC LIMIT ?`, mostLeftOut)
	return tables.Each(rows, err, func() error {
		var s logbook.LeftOutSession
		err := rows.Scan(&s.ID, readPhrase{&s.Why})
		l.Sessions = append(l.Sessions, s)
		return err
	})
}
