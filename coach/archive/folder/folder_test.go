package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

var began = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

const id = "2031-05-04T09-00-07Z_seat"

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// begun is the folder of a session that begins, written.
func begun(t *testing.T) *Edit {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sessions", id)
	must(t, os.MkdirAll(dir, 0o750))
	f := &Edit{ID: id, Dir: dir}
	f.Begin(&logbook.Entry{ID: id, Station: "seat", Began: began})
	must(t, f.Write())
	return f
}

func TestIsID(t *testing.T) {
	for name, want := range map[string]bool{
		id:                       true,
		"a":                      true,
		strings.Repeat("a", 200): true,
		strings.Repeat("a", 201): false,
		"":                       false,
		".":                      false,
		"..":                     false,
		".import-1":              false,
		"a/b":                    false,
		`a\b`:                    false,
		"a b":                    false,
		"a\x00":                  false,
	} {
		if IsID(name) != want {
			t.Errorf("%q can be an id: %v; must be %v", name, !want, want)
		}
	}
}

// IDs lists folders alone, oldest first; what is no session is passed over.
func TestIDs(t *testing.T) {
	data := t.TempDir()
	if _, err := LastID(data); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a data directory without sessions: %v", err)
	}
	must(t, os.Mkdir(Sessions(data), 0o750))
	if _, err := LastID(data); err == nil || !strings.Contains(err.Error(), "--data") {
		t.Errorf("no session: %v", err)
	}
	for _, name := range []string{"2031-05-05T00-00-00Z_b", id, ".gone-x"} {
		must(t, os.Mkdir(filepath.Join(Sessions(data), name), 0o750))
	}
	must(t, os.WriteFile(filepath.Join(Sessions(data), "file"), nil, 0o600))
	got, err := IDs(Sessions(data))
	if d := cmp.Diff([]string{id, "2031-05-05T00-00-00Z_b"}, got); d != "" || err != nil {
		t.Errorf("%v (-want +got):\n%s", err, d)
	}
	if last, err := LastID(data); last != got[1] || err != nil {
		t.Errorf("the newest is %q, %v", last, err)
	}
}

// Cards are written once, as they stood, under names that lead nowhere else.
func TestCards(t *testing.T) {
	dir := t.TempDir()
	if Cards(dir) != "" {
		t.Error("cards where there are none")
	}
	card := logbook.KeptCard{Kind: "maneuvers", Name: "wing-over", Text: []byte("name = \"wing-over\"\n")}
	must(t, KeepCards(dir, []logbook.KeptCard{card}))
	changed := card
	changed.Text = []byte("name = \"other\"\n")
	must(t, KeepCards(dir, []logbook.KeptCard{changed}))
	got, err := ReadCards(dir)
	if d := cmp.Diff([]logbook.KeptCard{card}, got); d != "" || err != nil || Cards(dir) == "" {
		t.Errorf("%v (-want +got):\n%s", err, d)
	}
	for _, name := range []string{"", ".", "..", "a/b", `a\b`, "a\x00"} {
		bad := logbook.KeptCard{Kind: "maneuvers", Name: name}
		if err := KeepCards(dir, []logbook.KeptCard{bad}); err == nil {
			t.Errorf("a card called %q was written", name)
		}
	}
}

// What is written can be taken back: the folder then holds the same bytes as before.
func TestTakeBack(t *testing.T) {
	f := begun(t)
	contents := func() map[string]string {
		all := map[string]string{}
		files, err := os.ReadDir(f.Dir)
		must(t, err)
		for _, e := range files {
			text, err := os.ReadFile(filepath.Join(f.Dir, e.Name()))
			must(t, err)
			all[e.Name()] = string(text)
		}
		return all
	}
	was := contents()
	notes, err := ReadNotes(f.Dir)
	must(t, err)
	again := &Edit{ID: id, Dir: f.Dir, Notes: notes, Noted: true, Regrade: debrief.New()}
	again.Notes.Ended = began.Add(time.Hour)
	act := again.NewAct(logbook.ActKeep, who.Owner(), began)
	act.Keep = true
	again.Add(act)
	must(t, again.Write())
	if now := contents(); len(now) != 3 || !again.Standing().Keep || now[NotesFile] == was[NotesFile] {
		t.Errorf("written: %v", now)
	}
	mark := filepath.Join(t.TempDir(), "mark")
	must(t, os.WriteFile(mark, nil, 0o600), again.TakeBack(mark))
	if d := cmp.Diff(was, contents()); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	if _, err := os.Stat(mark); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the mark: %v", err)
	}
}

// Acts are added behind those that are there, over a line that was never ended.
func TestActs(t *testing.T) {
	f := begun(t)
	one, two := f.NewAct(logbook.ActKeep, who.Owner(), began), f.NewAct(logbook.ActKeep, who.Owner(), began)
	f = &Edit{ID: id, Dir: f.Dir, Notes: f.Notes, Added: []logbook.Act{one}}
	must(t, f.Write())
	name := filepath.Join(f.Dir, ActsFile)
	text, err := os.ReadFile(name)
	must(t, err, os.WriteFile(name, append(text, `{"id":"torn`...), 0o600))
	f = &Edit{ID: id, Dir: f.Dir, Notes: f.Notes, Acts: []logbook.Act{one}, Added: []logbook.Act{two}}
	must(t, f.Write())
	got, err := ReadActs(f.Dir, nil)
	if d := cmp.Diff([]logbook.Act{one, two}, got); d != "" || err != nil {
		t.Errorf("%v (-want +got):\n%s", err, d)
	}
	if !ids.Valid(one.ID) || one.ID == two.ID || one.About.Session != f.Notes.Key {
		t.Errorf("%+v and %+v", one, two)
	}
}

// A session that begins again keeps its key, its earliest beginning and its student.
func TestBeginAgain(t *testing.T) {
	f := begun(t)
	key := f.Notes.Key
	f.Notes.Student, f.Notes.Ended = "Ada Example", began.Add(time.Hour)
	f.Begin(&logbook.Entry{ID: id, Station: "seat", Began: began.Add(time.Minute)})
	n := f.Notes
	if n.Key != key || !n.Began.Equal(began) || n.Student != "Ada Example" || !n.Ended.IsZero() {
		t.Errorf("%+v", n)
	}
}

// Without notes, the name of the folder says when the session was; a folder that says nothing is left out.
func TestStored(t *testing.T) {
	sessions := t.TempDir()
	r := &Reader{Version: "1.2", Tell: func(string) {}}
	for name, known := range map[string]bool{id: true, "no-date": false} {
		dir := filepath.Join(sessions, name)
		must(t, os.Mkdir(dir, 0o750))
		s := r.Stored(dir, true)
		if (s.Why == nil) != known || known && (!s.Entry.Began.Equal(began) || s.Entry.Station != "seat") {
			t.Errorf("%s: %+v, %v", name, s.Entry, s.Why)
		}
	}
}

// Damaged files are renamed, never over one another.
func TestAside(t *testing.T) {
	dir := t.TempDir()
	for _, text := range []string{"one", "two"} {
		must(t, os.WriteFile(filepath.Join(dir, NotesFile), []byte(text), 0o600), Aside(dir, NotesFile))
	}
	for name, want := range map[string]string{"notes-damaged-0001.json": "one", "notes-damaged-0002.json": "two"} {
		if text, err := os.ReadFile(filepath.Join(dir, name)); string(text) != want || err != nil {
			t.Errorf("%s holds %q, %v", name, text, err)
		}
	}
}
