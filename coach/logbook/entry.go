package logbook

import (
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

	"github.com/pelletier/go-toml/v2"

	"halfturn/coach/maneuver"
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
	var head struct{ Title string }
	if toml.Unmarshal(c.Text, &head) != nil || head.Title == "" {
		return c.Name
	}
	return head.Title
}

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

// ReadNotes reads the notes in the folder of a session; nil when there are none.
func ReadNotes(dir string) (*Notes, error) {
	n := &Notes{}
	ok, err := readJSON(filepath.Join(dir, notesFile), n)
	if !ok {
		return nil, err
	}
	return n, nil
}

// Begin enters a session. Its folder is there, from NewID. Entered again, nothing is lost.
func (b *Book) Begin(e Entry) error {
	if e.Version == "" {
		e.Version = b.options.Version
	}
	if err := b.keepCards(e.ID, e.Cards); err != nil {
		return err
	}
	return b.change(func(tx *sql.Tx) error {
		key, err := enter(tx, &e)
		if err != nil {
			return err
		}
		if err := first(tx, key, &e); err != nil {
			return err
		}
		return b.note(tx, e.ID)
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
	student, err := studentKey(tx, e.Student, began)
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
		RETURNING key`, e.ID, began, e.Station, student, e.Version, e.Maneuver, e.Standard, e.Aircraft, title).Scan(&key)
	return key, err
}

// studentKey finds or makes a student, NULL for nobody.
func studentKey(tx *sql.Tx, name string, flew int64) (key sql.NullInt64, err error) {
	if name == "" {
		return key, nil
	}
	err = tx.QueryRow(`INSERT INTO students (name, flew) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET flew = max(flew, excluded.flew) RETURNING key`, name, flew).Scan(&key)
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
	return b.change(func(tx *sql.Tx) error {
		if err := one(id)(tx.Exec(`UPDATE sessions SET ended = ? WHERE id = ?`, ended.UnixMilli(), id)); err != nil {
			return err
		}
		return b.note(tx, id)
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

// SetStudent notes who is flying; "" is nobody named.
func (b *Book) SetStudent(id, student string) error {
	student = strings.Join(strings.Fields(student), " ")
	if n := len([]rune(student)); n > MaxName {
		return &Refused{fmt.Sprintf("the name is %d letters long; allowed: %d", n, MaxName)}
	}
	return b.change(func(tx *sql.Tx) error {
		key, began, err := find(tx, id)
		if err != nil {
			return err
		}
		student, err := studentKey(tx, student, began)
		if err != nil {
			return err
		}
		if _, err := tx.Exec(`UPDATE sessions SET student = ? WHERE key = ?`, student, key); err != nil {
			return err
		}
		return b.note(tx, id)
	})
}

// SetKeep marks a session never to be removed by age or size, or takes the mark away.
func (b *Book) SetKeep(id string, keep bool) error {
	return b.change(func(tx *sql.Tx) error {
		if err := one(id)(tx.Exec(`UPDATE sessions SET keep = ? WHERE id = ?`, keep, id)); err != nil {
			return err
		}
		return b.note(tx, id)
	})
}

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

// note writes the session's notes.json as the change will have it.
func (b *Book) note(tx *sql.Tx, id string) error {
	n, err := notesOf(tx, id)
	if err != nil {
		return err
	}
	data, err := json.MarshalIndent(n, "", "  ")
	if err != nil {
		return err
	}
	if err := writeWhole(filepath.Join(b.dir, id, notesFile), append(data, '\n')); err != nil {
		if errors.Is(err, os.ErrNotExist) {
			return fmt.Errorf("the folder of session %s is gone, nothing was changed: halfturn sessions rebuild takes it out of the logbook", id)
		}
		return fmt.Errorf("the notes of session %s cannot be written: %w", id, err)
	}
	return nil
}

const notesFile = "notes.json"

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

// StationChoice returns what was last chosen at a station; false when nothing was.
func (b *Book) StationChoice(station string) (c StationChoice, ok bool, err error) {
	read, _ := b.pools()
	if read == nil {
		return c, false, b.refusal()
	}
	var text string
	err = read.QueryRow(`SELECT choice FROM stations WHERE name = ?`, station).Scan(&text)
	if errors.Is(err, sql.ErrNoRows) {
		return c, false, nil
	}
	if err == nil {
		err = json.Unmarshal([]byte(text), &c)
	}
	return c, err == nil, b.plainly(err)
}

// RememberStation notes what was chosen at a station, for when it comes back.
func (b *Book) RememberStation(station string, c StationChoice) error {
	text, err := json.Marshal(c)
	if err != nil {
		return err
	}
	return b.change(func(tx *sql.Tx) error {
		_, err := tx.Exec(`INSERT INTO stations (name, choice, at) VALUES (?, ?, ?) ON CONFLICT (name) DO UPDATE SET choice = excluded.choice, at = excluded.at`, station, string(text), time.Now().UnixMilli())
		return err
	})
}
