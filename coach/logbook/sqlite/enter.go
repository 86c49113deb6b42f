package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"time"

	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
)

// Begin enters a session as it begins.
func (b *book) Begin(e *logbook.Entry) error {
	return b.change(func(tx *sql.Tx) error {
		_, err := begin(tx, e)
		return err
	})
}

// begin makes the rows of a session and its first grading, which is empty, or completes those there are.
func begin(tx *sql.Tx, e *logbook.Entry) (key int64, err error) {
	if key, err = enter(tx, e); err != nil {
		return 0, err
	}
	var grade int64
	err = tx.QueryRow(`INSERT INTO grades (session, n, at, server, maneuver, standard, aircraft, grade, differences)
		VALUES (?, 1, ?, ?, ?, ?, ?, '', '[]')
		ON CONFLICT (session, n) DO UPDATE SET server = excluded.server RETURNING key`,
		key, e.Began.UnixMilli(), e.Version, e.Maneuver, e.Standard, e.Aircraft).Scan(&grade)
	if err != nil {
		return 0, err
	}
	return key, judgedBy(tx, grade, e.Cards)
}

// enter makes the row of a session, or completes the one there is.
func enter(tx *sql.Tx, e *logbook.Entry) (key int64, err error) {
	began := e.Began.UnixMilli()
	student, err := studentKey(tx, e.Student, e.Key, began)
	if err != nil {
		return 0, err
	}
	title := e.Aircraft
	for i := range e.Cards {
		if c := &e.Cards[i]; c.Kind == "aircraft" && c.Name == e.Aircraft {
			title = c.Title()
		}
	}
	err = tx.QueryRow(`INSERT INTO sessions (id, uid, began, station, student, server, maneuver, standard, aircraft,
		title)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, began = min(began, excluded.began), ended = NULL,
			station = excluded.station, student = coalesce(student, excluded.student), server = excluded.server,
			maneuver = excluded.maneuver, standard = excluded.standard, aircraft = excluded.aircraft, title =
			excluded.title
		RETURNING key`,
		e.ID, e.Key, began, names.Tidy(e.Station), student, e.Version, e.Maneuver, e.Standard, e.Aircraft, title).Scan(&key)
	if err != nil {
		return 0, err
	}
	_, err = tx.Exec(`DELETE FROM left_out WHERE id = ?`, e.ID)
	return key, err
}

// studentKey finds or makes a student, NULL for nobody. Of one that is there spelling and id stay. One without an id
// gets that which follows from the first session it is met in.
func studentKey(tx *sql.Tx, s logbook.Student, session string, flew int64) (key sql.NullInt64, err error) {
	name := names.Tidy(s.Name)
	if name == "" {
		return key, nil
	}
	id := s.ID
	if id == "" {
		id = studentID(session, names.Key(name), flew)
	}
	err = tx.QueryRow(`INSERT INTO students (name, fold, uid, flew) VALUES (?, ?, ?, ?)
		ON CONFLICT (fold) DO UPDATE SET flew = max(flew, excluded.flew) RETURNING key`,
		name, names.Key(name), id, flew).Scan(&key)
	return key, err
}

// judgedBy notes the cards of a grading.
func judgedBy(tx *sql.Tx, grade int64, cards []logbook.KeptCard) error {
	for i := range cards {
		c := &cards[i]
		hash := c.Hash()
		if _, err := tx.Exec(`INSERT INTO cards (hash, kind, name, title, text) VALUES (?, ?, ?, ?, ?)
			ON CONFLICT DO NOTHING`,
			hash, c.Kind, c.Name, c.Title(), string(c.Text)); err != nil {
			return err
		}
		_, err := tx.Exec(`INSERT INTO graded_by (grade, card) VALUES (?, ?) ON CONFLICT DO NOTHING`, grade, hash)
		if err != nil {
			return err
		}
	}
	return nil
}

// End notes when a session was over.
func (b *book) End(id string, at time.Time) error {
	return b.change(func(tx *sql.Tx) error {
		return one(id)(tx.Exec(`UPDATE sessions SET ended = ? WHERE id = ?`, at.UnixMilli(), id))
	})
}

// Act enters how a session stands.
func (b *book) Act(id string, s *logbook.Standing) error {
	return b.change(func(tx *sql.Tx) error {
		key, began, err := find(tx, id)
		if err != nil {
			return err
		}
		return stand(tx, key, began, s)
	})
}

// stand makes the rows of a session say how it stands. Remarks that are there already are not written again.
func stand(tx *sql.Tx, session, began int64, s *logbook.Standing) error {
	var uid string
	if err := tx.QueryRow(`SELECT uid FROM sessions WHERE key = ?`, session).Scan(&uid); err != nil {
		return err
	}
	student, err := studentKey(tx, s.Student, uid, began)
	if err != nil {
		return err
	}
	if _, err := tx.Exec(`UPDATE sessions SET student = ?, keep = ? WHERE key = ?`, student, s.Keep,
		session); err != nil {
		return err
	}
	there, err := remarksOf(tx, session)
	if err != nil {
		return err
	}
	same := 0
	for same < len(there) && same < len(s.Remarks) && sameRemark(&there[same], &s.Remarks[same]) {
		same++
	}
	for i := same; i < len(there); i++ {
		if _, err := tx.Exec(`DELETE FROM remarks WHERE session = ? AND id = ?`, session, there[i].ID); err != nil {
			return err
		}
	}
	for i := same; i < len(s.Remarks); i++ {
		if err := insertRemark(tx, session, &s.Remarks[i]); err != nil {
			return err
		}
	}
	return nil
}

func sameRemark(a, b *logbook.Remark) bool {
	moment := a.Time == nil && b.Time == nil || a.Time != nil && b.Time != nil && *a.Time == *b.Time
	return moment && a.ID == b.ID && a.Leg == b.Leg && a.By == b.By && a.Words == b.Words &&
		a.At.UnixMilli() == b.At.UnixMilli()
}

func insertRemark(tx *sql.Tx, session int64, r *logbook.Remark) error {
	_, err := tx.Exec(`INSERT INTO remarks (session, id, uid, leg, time, by, words, at)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
		session, r.ID, r.Key, r.Leg, r.Time, r.By, r.Words, r.At.UnixMilli())
	return err
}

// remarksOf reads the remarks on a session, oldest first.
func remarksOf(tx *sql.Tx, session int64) ([]logbook.Remark, error) {
	list := []logbook.Remark{}
	rows, err := tx.Query(`SELECT id, leg, time, by, words, at FROM remarks WHERE session = ? ORDER BY id`, session)
	return list, each(rows, err, func() error {
		var r logbook.Remark
		var at int64
		if err := rows.Scan(&r.ID, &r.Leg, &r.Time, &r.By, &r.Words, &at); err != nil {
			return err
		}
		r.At = moment(at)
		list = append(list, r)
		return nil
	})
}

// Entry returns a session as it was entered.
func (b *book) Entry(ctx context.Context, id string) (*logbook.Entry, error) {
	e := &logbook.Entry{ID: id}
	return e, b.ask(ctx, func(tx *sql.Tx) error {
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
		e.Began, e.Ended = moment(began), momentOr(ended)
		return err
	})
}

// Legs tells how many legs a session has, over all its gradings.
func (b *book) Legs(ctx context.Context, id string) (n int, err error) {
	return n, b.ask(ctx, func(tx *sql.Tx) error {
		key, _, err := find(tx, id)
		if err != nil {
			return err
		}
		return tx.QueryRowContext(ctx, `SELECT coalesce(max(n), 0) FROM legs WHERE session = ?`, key).Scan(&n)
	})
}

// Stations returns what was last chosen at each station. A choice that cannot be read is as none.
func (b *book) Stations(ctx context.Context) (map[string]maneuver.Choice, error) {
	all := map[string]maneuver.Choice{}
	return all, b.ask(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT name, choice FROM stations`)
		return each(rows, err, func() error {
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

// RememberStation notes what was chosen at a station.
func (b *book) RememberStation(station string, c maneuver.Choice, at time.Time) error {
	text, err := json.Marshal(c)
	if err != nil {
		return err
	}
	return b.change(func(tx *sql.Tx) error {
		_, err := tx.Exec(`INSERT INTO stations (name, choice, at) VALUES (?, ?, ?)
			ON CONFLICT (name) DO UPDATE SET choice = excluded.choice, at =
			excluded.at`, station, string(text), at.UnixMilli())
		return err
	})
}

// studentID is the id of a student who was met before students had ids.
func studentID(session, fold string, flew int64) string {
	return ids.Derive(moment(flew), "student", session, fold)
}
