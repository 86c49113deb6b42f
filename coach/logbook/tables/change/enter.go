package change

import (
	"database/sql"
	"encoding/json"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/who"
)

// Begin enters a session as it begins.
func (b Changes) Begin(e *logbook.Entry) error {
	return b.change(e.ID, func(tx *tables.Tx) error {
		_, err := begin(tx, e, b.fence)
		return err
	})
}

// begin makes the rows of a session and its first grading, which is empty, or completes those there are.
func begin(tx *tables.Tx, e *logbook.Entry, fence uint64) (key int64, err error) {
	if key, err = enter(tx, e, fence); err != nil {
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
func enter(tx *tables.Tx, e *logbook.Entry, fence uint64) (key int64, err error) {
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
		title, fence)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET uid = excluded.uid,
			began = CASE WHEN excluded.began < sessions.began THEN excluded.began ELSE sessions.began END, ended = NULL,
			station = excluded.station, student = coalesce(sessions.student, excluded.student),
			server = excluded.server, maneuver = excluded.maneuver, standard = excluded.standard,
			aircraft = excluded.aircraft, title = excluded.title
		RETURNING key`,
		e.ID, e.Key, began, names.Tidy(e.Station), student, e.Version, e.Maneuver, e.Standard, e.Aircraft,
		title, int64(fence)).Scan(&key)
	if err != nil {
		return 0, err
	}
	_, err = tx.Exec(`DELETE FROM left_out WHERE id = ?`, e.ID)
	return key, err
}

// studentKey finds or makes a student, NULL for nobody. Of one that is there spelling and id stay. One without an id
// gets that which follows from the first session it is met in.
func studentKey(tx *tables.Tx, s logbook.Student, session string, flew int64) (key sql.NullInt64, err error) {
	name := names.Tidy(s.Name)
	if name == "" {
		return key, nil
	}
	id := s.ID
	if id == "" {
		id = tables.StudentID(session, names.Key(name), flew)
	}
	err = tx.QueryRow(`INSERT INTO students (name, fold, uid, flew) VALUES (?, ?, ?, ?)
		ON CONFLICT (fold) DO UPDATE SET flew = CASE WHEN excluded.flew > students.flew THEN excluded.flew
			ELSE students.flew END RETURNING key`,
		name, names.Key(name), id, flew).Scan(&key)
	return key, err
}

// judgedBy notes the cards of a grading.
func judgedBy(tx *tables.Tx, grade int64, cards []logbook.KeptCard) error {
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
func (b Changes) End(id string, at time.Time) error {
	return b.change(id, func(tx *tables.Tx) error {
		return tables.One(id)(tx.Exec(`UPDATE sessions SET ended = ? WHERE id = ?`, at.UnixMilli(), id))
	})
}

// Act enters how a session stands.
func (b Changes) Act(id string, s *logbook.Standing) error {
	return b.change(id, func(tx *tables.Tx) error {
		key, began, err := tables.Find(tx, id)
		if err != nil {
			return err
		}
		return stand(tx, key, began, s)
	})
}

// stand makes the rows of a session say how it stands. Remarks that are there already are not written again.
func stand(tx *tables.Tx, session, began int64, s *logbook.Standing) error {
	var uid string
	if err := tx.QueryRow(`SELECT uid FROM sessions WHERE key = ?`, session).Scan(&uid); err != nil {
		return err
	}
	student, err := studentKey(tx, s.Student, uid, began)
	if err != nil {
		return err
	}
	if _, err := tx.Exec(`UPDATE sessions SET student = ?, keep = ? WHERE key = ?`, student, tables.Flag(s.Keep),
		session); err != nil {
		return err
	}
	there, err := query.Remarks(tx, session)
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
	return judge(tx, session, &s.Judging)
}

func sameRemark(a, b *logbook.Remark) bool {
	moment := a.Time == nil && b.Time == nil || a.Time != nil && b.Time != nil && *a.Time == *b.Time
	return moment && a.ID == b.ID && a.Leg == b.Leg && a.By == b.By && a.Words == b.Words &&
		a.At.UnixMilli() == b.At.UnixMilli()
}

func insertRemark(tx *tables.Tx, session int64, r *logbook.Remark) error {
	_, err := tx.Exec(`INSERT INTO remarks (session, id, uid, leg, time, by, words, at, plain)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		session, r.ID, r.Key, r.Leg, r.Time, r.By, r.Words, r.At.UnixMilli(), query.Plain(r.Words))
	return err
}

// RememberStation records what was chosen at a station, and who asked for it.
func (b Changes) RememberStation(by who.Who, station string, c maneuver.Choice, at time.Time) error {
	text, err := json.Marshal(struct {
		maneuver.Choice
		By who.Who `json:"by,omitzero"`
	}{c, by})
	if err != nil {
		return err
	}
	return b.Change(func(tx *tables.Tx) error {
		_, err := tx.Exec(`INSERT INTO stations (name, choice, at) VALUES (?, ?, ?)
			ON CONFLICT (name) DO UPDATE SET choice = excluded.choice, at =
			excluded.at`, station, string(text), at.UnixMilli())
		return err
	})
}

// RememberCourse records the course of a student, and who chose it.
func (b Changes) RememberCourse(by who.Who, student string, c logbook.CourseChoice, at time.Time) error {
	text, err := json.Marshal(struct {
		logbook.CourseChoice
		By who.Who `json:"by,omitzero"`
	}{c, by})
	if err != nil {
		return err
	}
	return b.Change(func(tx *tables.Tx) error {
		_, err := tx.Exec(`INSERT INTO courses (student, choice, at) VALUES (?, ?, ?)
			ON CONFLICT (student) DO UPDATE SET choice = excluded.choice, at = excluded.at`, names.Key(student),
			string(text), at.UnixMilli())
		return err
	})
}
