package logbook

import (
	"database/sql"
	"fmt"
	"strings"
	"time"
)

// What a remark may hold, letters.
const (
	MaxName  = 80
	MaxWords = 4000
)

// A Remark is something said about a session, a leg, or a moment.
type Remark struct {
	ID    int       `json:"id"`
	Leg   int       `json:"leg"`  // its number in the session, from 1; 0 is the session as a whole
	Time  *float64  `json:"time"` // s since the first datagram of the recording; null is no moment
	By    string    `json:"by"`
	Words string    `json:"words"`
	At    time.Time `json:"at"` // when it was written
}

// Refused is an error of what was asked for, in words for whoever asked.
type Refused struct{ Words string }

func (r *Refused) Error() string { return r.Words }

// Remark adds a remark and returns it as kept. Its ID is given here, and its time where it has none.
func (b *Book) Remark(id string, r Remark) (Remark, error) {
	if err := r.check(); err != nil {
		return r, err
	}
	err := b.change(func(tx *sql.Tx) error {
		key, _, err := find(tx, id)
		if err != nil {
			return err
		}
		if err := tx.QueryRow(`SELECT coalesce(max(id), 0) + 1 FROM remarks WHERE session = ?`, key).Scan(&r.ID); err != nil {
			return err
		}
		if err := insertRemark(tx, key, &r); err != nil {
			return err
		}
		return b.note(tx, id)
	})
	return r, err
}

// check puts a remark in order, or says what it lacks.
func (r *Remark) check() error {
	r.Words, r.By = strings.TrimSpace(r.Words), strings.Join(strings.Fields(r.By), " ")
	switch n := len([]rune(r.Words)); {
	case n == 0:
		return &Refused{"the remark has no words"}
	case n > MaxWords:
		return &Refused{fmt.Sprintf("the remark is %d letters long; allowed: %d", n, MaxWords)}
	case len([]rune(r.By)) > MaxName:
		return &Refused{fmt.Sprintf("the name is %d letters long; allowed: %d", len([]rune(r.By)), MaxName)}
	case r.Leg < 0:
		return &Refused{fmt.Sprintf("leg %d is none: legs count from 1, 0 is the session as a whole", r.Leg)}
	case r.Time != nil && !(*r.Time >= 0 && *r.Time < 1e7):
		return &Refused{fmt.Sprintf("the moment %g is none: it counts in seconds from the beginning of the recording", *r.Time)}
	}
	if r.At.IsZero() {
		r.At = time.Now()
	}
	r.At = r.At.UTC().Truncate(time.Second)
	return nil
}

func insertRemark(tx *sql.Tx, session int64, r *Remark) error {
	_, err := tx.Exec(`INSERT INTO remarks (session, id, leg, time, by, words, at) VALUES (?, ?, ?, ?, ?, ?, ?)`, session, r.ID, r.Leg, r.Time, r.By, r.Words, r.At.UnixMilli())
	return err
}

// remarksOf reads the remarks on a session, oldest first.
func remarksOf(tx *sql.Tx, session int64) ([]Remark, error) {
	list := []Remark{}
	rows, err := tx.Query(`SELECT id, leg, time, by, words, at FROM remarks WHERE session = ? ORDER BY id`, session)
	return list, each(rows, err, func() error {
		var r Remark
		var at int64
		if err := rows.Scan(&r.ID, &r.Leg, &r.Time, &r.By, &r.Words, &at); err != nil {
			return err
		}
		r.At = moment(at)
		list = append(list, r)
		return nil
	})
}
