package query

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
)

// Entry returns a session as it was entered.
func (b Questions) Entry(ctx context.Context, id string) (*logbook.Entry, error) {
	e := &logbook.Entry{ID: id}
	return e, b.Ask(ctx, func(tx *tables.Tx) error {
		var began int64
		var ended sql.NullInt64
		err := tx.QueryRowContext(ctx, `SELECT s.uid, s.station, s.began, s.ended, s.server, s.maneuver, s.standard,
			s.aircraft,
				coalesce(t.uid, ''), coalesce(t.name, '')
			FROM sessions s LEFT JOIN students t ON t.key = s.student WHERE s.id = ?`, id).
			Scan(&e.Key, &e.Station, &began, &ended, &e.Version, &e.Maneuver, &e.Standard, &e.Aircraft,
				&e.Student.ID, &e.Student.Name)
		if errors.Is(err, sql.ErrNoRows) {
			return &logbook.NotFound{ID: id}
		}
		e.Began, e.Ended = tables.Moment(began), tables.MomentOr(ended)
		return err
	})
}

// Legs returns how many legs a session has, over all its gradings.
func (b Questions) Legs(ctx context.Context, id string) (n int, err error) {
	return n, b.Ask(ctx, func(tx *tables.Tx) error {
		key, _, err := tables.Find(tx, id)
		if err != nil {
			return err
		}
		return tx.QueryRowContext(ctx, `SELECT coalesce(max(n), 0) FROM legs WHERE session = ?`, key).Scan(&n)
	})
}

// Stations returns what was last chosen at each station. A choice that cannot be read is as none.
func (b Questions) Stations(ctx context.Context) (map[string]maneuver.Choice, error) {
	all := map[string]maneuver.Choice{}
	return all, b.Ask(ctx, func(tx *tables.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT name, choice FROM stations`)
		return tables.Each(rows, err, func() error {
			var name, text string
			var c maneuver.Choice
			err := rows.Scan(&name, &text)
			if err == nil && json.Unmarshal([]byte(text), &c) == nil {
				all[name] = c
			}
			return err
		})
	})
}

// CourseOf returns the course that was chosen for a student. A choice that cannot be read is as none.
func (b Questions) CourseOf(ctx context.Context, student string) (c logbook.CourseChoice, err error) {
	if b.ShapeIs() < tables.ShapeOfCourses {
		return c, nil
	}
	return c, b.Ask(ctx, func(tx *tables.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT choice FROM courses WHERE student = ?`, names.Key(student))
		return tables.Each(rows, err, func() error {
			var text string
			err := rows.Scan(&text)
			if json.Unmarshal([]byte(text), &c) != nil {
				c = logbook.CourseChoice{}
			}
			return err
		})
	})
}

// Remarks reads the remarks on a session, oldest first.
func Remarks(tx *tables.Tx, session int64) ([]logbook.Remark, error) {
	list := []logbook.Remark{}
	rows, err := tx.Query(`
		SELECT id, uid, leg, time, by, words, at FROM remarks WHERE session = ? ORDER BY id`, session)
	return list, tables.Each(rows, err, func() error {
		var r logbook.Remark
		var at int64
		if err := rows.Scan(&r.ID, &r.Key, &r.Leg, &r.Time, &r.By, &r.Words, &at); err != nil {
			return err
		}
		r.At = tables.Moment(at)
		list = append(list, r)
		return nil
	})
}

// Judging reads what people made of the grades of a session.
func Judging(tx *tables.Tx, session int64) (logbook.Judging, error) {
	j := logbook.NewJudging()
	var text string
	err := tx.QueryRow(`SELECT judging FROM sessions WHERE key = ?`, session).Scan(&text)
	if err != nil || text == "" {
		return j, err
	}
	return j, json.Unmarshal([]byte(text), &j)
}
