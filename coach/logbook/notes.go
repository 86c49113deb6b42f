package logbook

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"path/filepath"
	"time"

	"halfturn/coach/names"
)

// Notes is what is known of a session beside the stream and its grades: notes.json in its folder,
// from which the database can be made again.
type Notes struct {
	Version  int       `json:"version"` // of this format: 1
	ID       string    `json:"id"`
	Station  string    `json:"station"`
	Began    time.Time `json:"began"`
	Ended    time.Time `json:"ended,omitzero"` // zero while it is being flown
	Server   string    `json:"server"`         // version of the program
	Maneuver string    `json:"maneuver"`       // as chosen at its beginning
	Standard string    `json:"standard"`
	Aircraft string    `json:"aircraft"`
	Cards    []string  `json:"cards"` // hashes, as graded
	Student  string    `json:"student"`
	Keep     bool      `json:"keep"`
	Remarks  []Remark  `json:"remarks"`
	// How regrade-0001.json and so on came to be, in this order.
	Regrades []Regraded `json:"regrades"`
}

// Regraded says when, by what, and to what effect a session was graded again.
type Regraded struct {
	At          time.Time `json:"at"`
	Server      string    `json:"server"`
	Maneuver    string    `json:"maneuver"`
	Standard    string    `json:"standard"`
	Aircraft    string    `json:"aircraft"`
	Differences []string  `json:"differences"` // to the first grading, in words
}

// ReadNotes reads the notes in the folder of a session; nil when there are none. Names and words are as package names
// has them, whoever wrote the file.
func ReadNotes(dir string) (*Notes, error) {
	n := &Notes{}
	ok, err := readJSON(filepath.Join(dir, notesFile), n)
	if !ok {
		return nil, err
	}
	n.Station, n.Student = names.Tidy(n.Station), names.Tidy(n.Student)
	for i := range n.Remarks {
		r := &n.Remarks[i]
		r.By, r.Words = names.Tidy(r.By), names.TidyWords(r.Words)
	}
	return n, nil
}

// sound tells why notes that can be read cannot be taken into the logbook; nil when they can.
func (n *Notes) sound() error {
	seen := map[int]bool{}
	for i := range n.Remarks {
		switch r := &n.Remarks[i]; {
		case r.ID < 1:
			return fmt.Errorf("notes.json holds a remark with the id %d; they count from 1", r.ID)
		case seen[r.ID]:
			return fmt.Errorf("notes.json holds two remarks with the id %d; give one of them another", r.ID)
		default:
			seen[r.ID] = true
		}
	}
	return nil
}

// notesOf reads what is written beside the stream.
func notesOf(tx *sql.Tx, id string) (*Notes, error) {
	n := &Notes{Version: 1, ID: id, Cards: []string{}}
	var key, began int64
	var ended sql.NullInt64
	err := tx.QueryRow(`SELECT s.key, s.station, s.began, s.ended, s.server, s.maneuver, s.standard, s.aircraft, coalesce(t.name, ''), s.keep
		FROM sessions s LEFT JOIN students t ON t.key = s.student WHERE s.id = ?`, id).
		Scan(&key, &n.Station, &began, &ended, &n.Server, &n.Maneuver, &n.Standard, &n.Aircraft, &n.Student, &n.Keep)
	if err != nil {
		return nil, err
	}
	n.Began = moment(began)
	if ended.Valid {
		n.Ended = moment(ended.Int64)
	}
	if n.Remarks, err = remarksOf(tx, key); err != nil {
		return nil, err
	}
	if n.Regrades, err = regradesOf(tx, key); err != nil {
		return nil, err
	}
	rows, err := tx.Query(`SELECT c.card FROM graded_by c JOIN grades g ON g.key = c.grade WHERE g.session = ? AND g.n = 1`, key)
	return n, each(rows, err, func() error {
		var hash string
		err := rows.Scan(&hash)
		n.Cards = append(n.Cards, hash)
		return err
	})
}

// regradesOf reads how the gradings beside the first came to be, in their order.
func regradesOf(tx *sql.Tx, session int64) ([]Regraded, error) {
	list := []Regraded{}
	rows, err := tx.Query(`SELECT at, server, maneuver, standard, aircraft, differences FROM grades WHERE session = ? AND n > 1 ORDER BY n`, session)
	return list, each(rows, err, func() error {
		var r Regraded
		var at int64
		var differences string
		if err := rows.Scan(&at, &r.Server, &r.Maneuver, &r.Standard, &r.Aircraft, &differences); err != nil {
			return err
		}
		r.At = moment(at)
		list = append(list, r)
		return json.Unmarshal([]byte(differences), &list[len(list)-1].Differences)
	})
}
