package folder

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// notesVersion is of the format of notes. In version 1 the notes also held who flew the session last, whether it is
// kept, and the remarks on it: these are acts since.
const notesVersion = 2

// Notes is what the program knows of a session beside its stream and its grades: notes.json in its folder. What people
// added to it are its acts.
type Notes struct {
	Version  int       `json:"version"`
	ID       string    `json:"id"`
	Key      string    `json:"key"` // unique everywhere; see package ids
	Station  string    `json:"station"`
	Began    time.Time `json:"began"`
	Ended    time.Time `json:"ended,omitzero"` // zero while it is being flown
	Server   string    `json:"server"`         // version of the program
	Maneuver string    `json:"maneuver"`       // as chosen at its beginning
	Standard string    `json:"standard"`
	Aircraft string    `json:"aircraft"`
	Cards    []string  `json:"cards"`   // hashes, as graded
	Student  string    `json:"student"` // at its beginning
	// StudentID is unique everywhere; "" when nobody was named, or had one.
	StudentID string `json:"studentId,omitempty"`
	// Regrades say how regrade-0001.json and so on came to be, in this order.
	Regrades []Regraded `json:"regrades"`

	acts []logbook.Act // that stood in notes of version 1
}

// Regraded says when, by what, and to what effect a session was graded again.
type Regraded struct {
	At          time.Time       `json:"at"`
	By          who.Who         `json:"by,omitzero"` // who asked for it
	Server      string          `json:"server"`
	Maneuver    string          `json:"maneuver"`
	Standard    string          `json:"standard"`
	Aircraft    string          `json:"aircraft"`
	Differences []phrase.Phrase `json:"differences"` // to the first grading, in words
}

// ReadNotes reads the notes in the folder of a session; nil when there are none. Names are as package names has them,
// whatever wrote the file.
func ReadNotes(dir string) (*Notes, error) {
	n := &Notes{}
	var added struct {
		Keep    bool             `json:"keep"`
		Remarks []logbook.Remark `json:"remarks"`
	}
	path := filepath.Join(dir, NotesFile)
	if err := checkVersion(path, notesVersion); err != nil {
		return nil, err
	}
	ok, err := readJSON(path, n)
	if ok {
		ok, err = readJSON(path, &added)
	}
	if !ok {
		return nil, err
	}
	n.Station, n.Student = names.Tidy(n.Station), names.Tidy(n.Student)
	if n.Key == "" && !n.Began.IsZero() {
		n.Key = logbook.SessionKey(n.Began.Truncate(time.Millisecond), filepath.Base(dir), n.Station)
	}
	if n.Version < notesVersion {
		n.acts = actsOf(n, added.Keep, added.Remarks)
	}
	return n, nil
}

// actsOf makes acts of what notes of version 1 hold.
func actsOf(n *Notes, keep bool, remarks []logbook.Remark) []logbook.Act {
	var acts []logbook.Act
	about := logbook.About{Session: n.Key}
	for i := range remarks {
		r := &remarks[i]
		a := logbook.Act{
			ID:     logbook.RemarkID(r.At.Truncate(time.Millisecond), n.Key, r.ID),
			Kind:   logbook.ActRemark,
			By:     who.Owner(),
			At:     r.At,
			About:  about,
			Number: r.ID,
			Author: r.By,
			Words:  r.Words,
		}
		a.About.Moment = r.Time
		if r.Leg > 0 {
			a.About.Number, a.About.Leg = r.Leg, logbook.LegID(n.Began, n.Key, r.Leg)
		}
		acts = append(acts, a)
	}
	slices.SortStableFunc(acts, func(a, b logbook.Act) int { return a.Number - b.Number })
	if keep {
		acts = append(acts, logbook.Act{
			ID:    logbook.RemarkID(n.Began, n.Key, 0),
			Kind:  logbook.ActKeep,
			By:    who.Owner(),
			At:    n.Began,
			About: about,
			Keep:  true,
		})
	}
	return acts
}

// Sound says why notes that can be read cannot be taken into the logbook; nil when they can.
func (n *Notes) Sound() error {
	seen := map[int]bool{}
	for i := range n.acts {
		switch a := &n.acts[i]; {
		case a.Kind != logbook.ActRemark:
		case a.Number < 1:
			return phrase.RemarkID.Error(phrase.Int("id", a.Number))
		case seen[a.Number]:
			return phrase.RemarkTwice.Error(phrase.Int("id", a.Number))
		default:
			seen[a.Number] = true
		}
	}
	return nil
}

// Encode writes the notes as JSON.
func (n *Notes) Encode() ([]byte, error) {
	n.Version = notesVersion
	if n.Cards == nil {
		n.Cards = []string{}
	}
	if n.Regrades == nil {
		n.Regrades = []Regraded{}
	}
	data, err := json.MarshalIndent(n, "", "  ")
	return append(data, '\n'), err
}

// entry is the session as the logbook enters it, without its cards.
func (n *Notes) entry() logbook.Entry {
	student := logbook.Student{ID: n.StudentID, Name: n.Student}
	if names.Readable(n.Student) == names.Removed {
		student = logbook.Student{}
	}
	return logbook.Entry{
		ID:       n.ID,
		Key:      n.Key,
		Station:  n.Station,
		Student:  student,
		Began:    n.Began,
		Ended:    n.Ended,
		Version:  n.Server,
		Maneuver: n.Maneuver,
		Standard: n.Standard,
		Aircraft: n.Aircraft,
	}
}

// NotesFrom is what notes would say of a session that has none, by what the logbook knows of it.
func NotesFrom(e *logbook.Entry) *Notes {
	return &Notes{
		ID:        e.ID,
		Key:       e.Key,
		Station:   names.Tidy(e.Station),
		Began:     e.Began.UTC().Truncate(time.Millisecond),
		Ended:     e.Ended,
		Server:    e.Version,
		Maneuver:  e.Maneuver,
		Standard:  e.Standard,
		Aircraft:  e.Aircraft,
		Student:   names.Tidy(e.Student.Name),
		StudentID: e.Student.ID,
	}
}
