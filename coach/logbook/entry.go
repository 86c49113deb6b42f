package logbook

import (
	"cmp"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/configs/strict"
)

// An Entry is a session as it begins.
type Entry struct {
	ID       string // from NewID
	Station  string
	Student  string // "" is nobody named
	Began    time.Time
	Version  string // of the program; "" is that of the Book
	Maneuver string // names of cards, as chosen at the beginning
	Standard string
	Aircraft string // "" is none
	Cards    []Card // that grade it, as they stand
}

// A Card is the text of one.
type Card struct {
	Kind string // "maneuvers", "standards" or "aircraft"
	Name string
	Text []byte // TOML
}

// CardsOf are the texts of all cards of a library: by any of them a session may be graded before it
// ends, since others can be chosen on the way.
func CardsOf(l *maneuver.Library) []Card {
	var all []Card
	add := func(kind, name string) {
		if o, ok := l.Origin(kind, name); ok {
			all = append(all, Card{Kind: kind, Name: name, Text: o.Text})
		}
	}
	for _, c := range l.Cards() {
		add("maneuvers", c.Name)
	}
	for _, s := range l.Standards() {
		add("standards", s.Name)
	}
	for _, a := range l.Aircraft() {
		add("aircraft", a.Name)
	}
	return all
}

// Hash is what a card is kept under: the SHA-256 of kind, name and text, in hex.
func (c *Card) Hash() string {
	h := sha256.New()
	for _, part := range [][]byte{[]byte(c.Kind), []byte(c.Name), c.Text} {
		h.Write(part)
		h.Write([]byte{0})
	}
	return hex.EncodeToString(h.Sum(nil))
}

// title is the card's, its name where it has none.
func (c *Card) title() string {
	return cmp.Or(strict.Top(c.Text)["title"], c.Name)
}

// Begin enters a session. Its folder is there, from NewID. Entered again, nothing is lost.
func (b *Book) Begin(e Entry) error {
	if e.Version == "" {
		e.Version = b.options.Version
	}
	if err := b.keepCards(e.ID, e.Cards); err != nil {
		return err
	}
	return b.changeNoted(e.ID, func(tx *sql.Tx) error {
		key, err := enter(tx, &e)
		if err != nil {
			return err
		}
		return first(tx, key, &e)
	})
}

// keepCards writes the cards into the session's folder.
func (b *Book) keepCards(id string, cards []Card) error {
	for i := range cards {
		c := &cards[i]
		if !oneName(c.Kind) || !oneName(c.Name) {
			return fmt.Errorf("session %s: card %q of kind %q cannot be a file", id, c.Name, c.Kind)
		}
		path := filepath.Join(b.dir, id, "cards", c.Kind, c.Name+".toml")
		if _, err := os.Stat(path); err == nil {
			continue // as it stood when the session began
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o750); err != nil {
			return fmt.Errorf("session %s cannot be kept: %w", id, err)
		}
		// The notes that name them are synced after them: a sync a card would take long for many seats.
		if err := putWhole(path, c.Text, func(*os.File) error { return nil }); err != nil {
			return fmt.Errorf("session %s cannot be kept: %w", id, err)
		}
	}
	return nil
}

// oneName tells whether a word is the name of one file, not a way to another.
func oneName(s string) bool {
	return s != "" && s != "." && s != ".." && !strings.ContainsAny(s, `/\`+"\x00") && filepath.Base(s) == s
}

// enter makes the row of a session, or completes the one there is.
func enter(tx *sql.Tx, e *Entry) (key int64, err error) {
	began := e.Began.UnixMilli()
	student, err := studentKey(tx, names.Tidy(e.Student), began)
	if err != nil {
		return 0, err
	}
	title := e.Aircraft
	for i := range e.Cards {
		if c := &e.Cards[i]; c.Kind == "aircraft" && c.Name == e.Aircraft {
			title = c.title()
		}
	}
	err = tx.QueryRow(`INSERT INTO sessions (id, began, station, student, server, maneuver, standard, aircraft, title) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET began = min(began, excluded.began), ended = NULL, station = excluded.station, student = coalesce(student, excluded.student),
		server = excluded.server, maneuver = excluded.maneuver, standard = excluded.standard, aircraft = excluded.aircraft, title = excluded.title
		RETURNING key`, e.ID, began, names.Tidy(e.Station), student, e.Version, e.Maneuver, e.Standard, e.Aircraft, title).Scan(&key)
	if err != nil {
		return 0, err
	}
	_, err = tx.Exec(`DELETE FROM left_out WHERE id = ?`, e.ID)
	return key, err
}

// studentKey finds or makes a student, NULL for nobody. The name is as names.Person gives it; of one that is there the
// spelling stays.
func studentKey(tx *sql.Tx, name string, flew int64) (key sql.NullInt64, err error) {
	if name == "" {
		return key, nil
	}
	err = tx.QueryRow(`INSERT INTO students (name, fold, flew) VALUES (?, ?, ?)
		ON CONFLICT (fold) DO UPDATE SET flew = max(flew, excluded.flew) RETURNING key`, name, names.Key(name), flew).Scan(&key)
	return key, err
}

// first makes the first grading of a session, empty, with its cards.
func first(tx *sql.Tx, session int64, e *Entry) error {
	var key int64
	err := tx.QueryRow(`INSERT INTO grades (session, n, at, server, maneuver, standard, aircraft, grade, differences) VALUES (?, 1, ?, ?, ?, ?, ?, '', '[]')
		ON CONFLICT (session, n) DO UPDATE SET server = excluded.server RETURNING key`,
		session, e.Began.UnixMilli(), e.Version, e.Maneuver, e.Standard, e.Aircraft).Scan(&key)
	if err != nil {
		return err
	}
	return judgedBy(tx, key, e.Cards)
}

// judgedBy notes the cards of a grading.
func judgedBy(tx *sql.Tx, grade int64, cards []Card) error {
	for i := range cards {
		c := &cards[i]
		if _, err := tx.Exec(`INSERT INTO cards (hash, kind, name, title, text) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`, c.Hash(), c.Kind, c.Name, c.title(), string(c.Text)); err != nil {
			return err
		}
		if _, err := tx.Exec(`INSERT INTO graded_by (grade, card) VALUES (?, ?) ON CONFLICT DO NOTHING`, grade, c.Hash()); err != nil {
			return err
		}
	}
	return nil
}

// End notes when a session was over.
func (b *Book) End(id string, ended time.Time) error {
	return b.changeNoted(id, func(tx *sql.Tx) error {
		return one(id)(tx.Exec(`UPDATE sessions SET ended = ? WHERE id = ?`, ended.UnixMilli(), id))
	})
}

// one makes an error of a change that met no session.
func one(id string) func(sql.Result, error) error {
	return func(r sql.Result, err error) error {
		if err != nil {
			return err
		}
		if n, err := r.RowsAffected(); err != nil || n > 0 {
			return err
		}
		return &NotFound{ID: id}
	}
}

// SetStudent notes who is flying; "" is nobody named. A name that names.Person does not take is refused.
func (b *Book) SetStudent(id, student string) error {
	student, err := names.Person(student)
	if err != nil {
		return &Refused{err.Error()}
	}
	return b.changeNoted(id, func(tx *sql.Tx) error {
		key, began, err := find(tx, id)
		if err != nil {
			return err
		}
		student, err := studentKey(tx, student, began)
		if err != nil {
			return err
		}
		_, err = tx.Exec(`UPDATE sessions SET student = ? WHERE key = ?`, student, key)
		return err
	})
}

// SetKeep marks a session never to be removed by age or size, or takes the mark away.
func (b *Book) SetKeep(id string, keep bool) error {
	return b.changeNoted(id, func(tx *sql.Tx) error {
		return one(id)(tx.Exec(`UPDATE sessions SET keep = ? WHERE id = ?`, keep, id))
	})
}

// find looks a session up.
func find(tx *sql.Tx, id string) (key, began int64, err error) {
	err = tx.QueryRow(`SELECT key, began FROM sessions WHERE id = ?`, id).Scan(&key, &began)
	if errors.Is(err, sql.ErrNoRows) {
		err = &NotFound{ID: id}
	}
	return key, began, err
}

// NotFound says that there is no such session.
type NotFound struct{ ID string }

func (n *NotFound) Error() string { return fmt.Sprintf("there is no session %q in the logbook", n.ID) }

const notesFile = "notes.json"

// each goes through rows and closes them.
func each(rows *sql.Rows, err error, take func() error) error {
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := take(); err != nil {
			return err
		}
	}
	return rows.Err()
}

func moment(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// StationChoice is what was last chosen at a station.
type StationChoice struct {
	Maneuver string `json:"maneuver"`
	Standard string `json:"standard"`
	Aircraft string `json:"aircraft"`
}

// StationChoice returns what was last chosen at a station; false when nothing was. It answers from memory: a station
// that begins does not wait for the disk.
func (b *Book) StationChoice(station string) (c StationChoice, ok bool, err error) {
	b.mu.RLock()
	defer b.mu.RUnlock()
	if b.choices == nil {
		return c, false, b.why()
	}
	c, ok = b.choices[station]
	return c, ok, nil
}

// loadChoices reads what was last chosen at each station. A choice that cannot be read is as none.
func (b *Book) loadChoices() error {
	all := map[string]StationChoice{}
	rows, err := b.read.Query(`SELECT name, choice FROM stations`)
	err = each(rows, err, func() error {
		var name, text string
		var c StationChoice
		err := rows.Scan(&name, &text)
		if err == nil && json.Unmarshal([]byte(text), &c) == nil {
			all[name] = c
		}
		return err
	})
	if err == nil {
		b.choices = all
	}
	return err
}

// RememberStation notes what was chosen at a station, for when it comes back.
func (b *Book) RememberStation(station string, c StationChoice) error {
	text, err := json.Marshal(c)
	if err != nil {
		return err
	}
	err = b.change(func(tx *sql.Tx) error {
		_, err := tx.Exec(`INSERT INTO stations (name, choice, at) VALUES (?, ?, ?)
			ON CONFLICT (name) DO UPDATE SET choice = excluded.choice, at = excluded.at`, station, string(text), time.Now().UnixMilli())
		return err
	})
	if err != nil {
		return err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.choices != nil { // else they are being read again, this one with them
		b.choices[station] = c
	}
	return nil
}
