package logbook

import (
	"database/sql"
	"fmt"
	"time"
	"unicode/utf8"

	"halfturn/coach/names"
)

// What a session's remarks may hold.
const (
	MaxWords   = 4000 // letters of one
	MaxRemarks = 500
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

// Remark adds a remark and returns it as kept. Its ID is given here, and its time where it has none. Words and a
// name that package names does not take are refused, and a leg that was not flown.
func (b *Book) Remark(id string, r Remark) (Remark, error) {
	if err := r.check(); err != nil {
		return r, err
	}
	err := b.changeNoted(id, func(tx *sql.Tx) error {
		key, _, err := find(tx, id)
		if err != nil {
			return err
		}
		if err := r.fits(tx, key, id); err != nil {
			return err
		}
		return insertRemark(tx, key, &r)
	})
	return r, err
}

// check puts a remark in order, or says what it lacks.
func (r *Remark) check() (err error) {
	if r.Words, err = names.Words(r.Words); err != nil {
		return &Refused{err.Error()}
	}
	if r.By, err = names.Person(r.By); err != nil {
		return &Refused{err.Error()}
	}
	switch n := utf8.RuneCountInString(r.Words); {
	case n == 0:
		return &Refused{"the remark has no words"}
	case n > MaxWords:
		return &Refused{fmt.Sprintf("the remark is %d letters long; allowed: %d", n, MaxWords)}
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

// fits gives the remark its id, or says why the session does not take it.
func (r *Remark) fits(tx *sql.Tx, session int64, id string) error {
	var there, last, legs int
	err := tx.QueryRow(`SELECT (SELECT count(*) FROM remarks WHERE session = ?1), (SELECT coalesce(max(id), 0) FROM remarks WHERE session = ?1),
		(SELECT coalesce(max(n), 0) FROM legs WHERE session = ?1)`, session).Scan(&there, &last, &legs)
	switch {
	case err != nil:
		return err
	case there >= MaxRemarks:
		return &Refused{fmt.Sprintf("session %q has %d remarks, as many as are kept with one", id, there)}
	case r.Leg > 0 && legs == 0:
		return &Refused{fmt.Sprintf("session %q has no legs; a remark on the session as a whole is on leg 0", id)}
	case r.Leg > legs:
		return &Refused{fmt.Sprintf("session %q has no leg %d; its last one is leg %d", id, r.Leg, legs)}
	}
	r.ID = last + 1
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
