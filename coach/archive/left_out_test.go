package archive

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/names"
	"halfturn/coach/who"
)

// renotes changes the notes in the folder of a session as whoever edits them by hand would.
func renotes(t *testing.T, data, id string, change func(n map[string]any)) []byte {
	t.Helper()
	name := filepath.Join(data, "sessions", id, folder.NotesFile)
	text, err := os.ReadFile(name)
	must(t, err)
	var n map[string]any
	must(t, json.Unmarshal(text, &n))
	n["version"] = 1 // as notes were before there were acts
	n["remarks"] = []any{map[string]any{"id": 1, "leg": 0, "by": "instructor", "words": "remark", "at": began}}
	change(n)
	text, err = json.Marshal(n)
	acts := filepath.Join(data, "sessions", id, folder.ActsFile)
	must(t, err, os.WriteFile(name, text, 0o600), disk.IgnoreGone(os.Remove(acts)))
	return text
}

func doubled(n map[string]any) {
	list := n["remarks"].([]any)
	n["remarks"] = append(list, list[0])
}

// One bad file of notes leaves its own session out, says so and says why, and keeps no other one out: in a rebuild, and
// when the database is gone and the server rebuilds it.
func TestLeftOut(t *testing.T) {
	for name, change := range map[string]struct {
		change func(map[string]any)
		why    string
	}{
		"a doubled id": {doubled, "two remarks with the id 1"},
		"an id that is none": {func(n map[string]any) { n["remarks"].([]any)[0].(map[string]any)["id"] = 0 },
			"a remark with the id 0"},
		"an id below the none": {func(n map[string]any) { n["remarks"].([]any)[0].(map[string]any)["id"] = -3 },
			"a remark with the id -3"},
	} {
		t.Run(name, func(t *testing.T) {
			data, was := sat(t)
			bad := was.Sessions[1].ID
			text := renotes(t, data, bad, change.change)
			check := func(b *Archive, told []string) {
				t.Helper()
				list, err := b.List(t.Context(), logbook.Filter{})
				must(t, err)
				if list.Total != 2 || list.Sessions[0].ID != was.Sessions[0].ID ||
					list.Sessions[1].ID != was.Sessions[2].ID {
					t.Errorf("the logbook holds %+v", list.Sessions)
				}
				out, err := b.LeftOut(t.Context())
				must(t, err)
				if d := cmp.Diff(out, list.LeftOut); d != "" || out.Total != 1 || len(out.Sessions) != 1 ||
					out.Sessions[0].ID != bad || !strings.Contains(out.Sessions[0].Why.String(), change.why) {
					t.Errorf("left out %+v %s", out, d)
				}
				if !slices.ContainsFunc(told, func(s string) bool {
					return strings.Contains(s, bad) &&
						strings.Contains(s, change.why)
				}) {
					t.Errorf("told %q", told)
				}
				if now, err := os.ReadFile(filepath.Join(b.Dir(), bad, folder.NotesFile)); err != nil ||
					string(now) != string(text) {
					t.Errorf("its notes are changed: %v", err)
				}
			}
			var told []string
			o := Options{Engine: sqlite.Engine{}, Version: "1.2", Repair: true,
				Tell: func(s string) { told = append(told, s) }}
			b, err := Open(data, o)
			must(t, err)
			if n, err := b.Rebuild(t.Context(), who.Owner(), nil); n != 2 || err != nil {
				t.Errorf("rebuilt %d, %v", n, err)
			}
			check(b, told)
			must(t, b.Close(), os.Remove(filepath.Join(data, "logbook.db")))
			told = nil
			b, err = Open(data, o)
			must(t, err)
			defer b.Close()
			check(b, told)
			for _, r := range was.Sessions { // mended, it is taken in
				renotes(t, data, r.ID, func(n map[string]any) { n["remarks"] = []any{} })
			}
			if n, err := b.Rebuild(t.Context(), who.Owner(), nil); n != 3 || err != nil {
				t.Errorf("rebuilt %d, %v", n, err)
			}
			if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 0 {
				t.Errorf("still left out: %+v, %v", out, err)
			}
		})
	}
}

// A session that was left out and goes on is entered, and what its notes said is kept beside.
func TestLeftOutGoesOn(t *testing.T) {
	data, was := sat(t)
	bad := was.Sessions[1].ID
	text := renotes(t, data, bad, doubled)
	b := openedBy(t, data, sqlite.Engine{})
	_, err := b.Rebuild(t.Context(), who.Owner(), nil)
	must(t, err, b.Begin(logbook.Entry{ID: bad, Station: "seat", Began: began}), b.SetKeep(who.Owner(), bad, true))
	if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 0 {
		t.Errorf("left out %+v, %v", out, err)
	}
	kept, err := os.ReadFile(filepath.Join(b.Dir(), bad, "notes-damaged-0001.json"))
	if err != nil || string(kept) != string(text) {
		t.Errorf("its notes are lost: %v", err)
	}
	folderAgrees(t, b)
}

// Whatever whoever writes notes puts into them, the logbook holds names and words as they are entered.
func TestRebuildTidies(t *testing.T) {
	data, was := sat(t)
	renotes(t, data, was.Sessions[0].ID, func(n map[string]any) {
		n["student"], n["station"] = "Student  \x1b[31m2", "seat\u202e\x07"
		r := n["remarks"].([]any)[0].(map[string]any)
		r["words"], r["by"] = "late\x1b]0;x\x07\nagain", "B.\u00a0 Example\u009b"
	})
	renotes(t, data, was.Sessions[1].ID, func(n map[string]any) { n["student"] = "STUDENT\u00a00" })
	b := openedBy(t, data, sqlite.Engine{})
	_, err := b.Rebuild(t.Context(), who.Owner(), nil)
	must(t, err)
	all := whole(t, b)
	newest, middle, oldest := all.Details[0], all.Details[1], all.Details[2]
	if newest.Student != "Student [31m2" || newest.Station != "seat" || newest.Said[0].Words != "late]0;x\nagain" ||
		newest.Said[0].By != "B. Example" {
		t.Errorf("%+v", newest)
	}
	if oldest.Student != "Student 0" || middle.Student != "Student 0" {
		t.Errorf("%q and %q", oldest.Student, middle.Student)
	}
}

// Every way in has one student for the spellings of one name, shown as it was first written.
func TestOneStudent(t *testing.T) {
	b := open(t)
	first := entered(t, b, began, "Ada Example")
	for i, spelling := range []string{"Ada  Example", " ada\u00a0example\n", "ADA EXAMPLE"} {
		id := entered(t, b, began.Add(time.Duration(i+1)*time.Hour), "")
		must(t, b.SetStudent(who.Owner(), id, spelling))
		entered(t, b, began.Add(time.Duration(i+10)*time.Hour), spelling)
	}
	students, err := b.Students(t.Context(), 0)
	if d := cmp.Diff([]string{"Ada Example"}, students); d != "" || err != nil {
		t.Errorf("%v %s", err, d)
	}
	list, err := b.List(t.Context(), logbook.Filter{Student: "ada example"})
	if err != nil || list.Total != 7 {
		t.Errorf("%d sessions, %v", list.Total, err)
	}
	for _, name := range []string{"Ada\x1b[31m", "Ada\u202e", strings.Repeat("x", names.Longest+1)} {
		if err := b.SetStudent(who.Owner(), first, name); err == nil || strings.Contains(err.Error(), "\x1b") {
			t.Errorf("%q: %v", name, err)
		}
	}
	if n, err := folder.ReadNotes(filepath.Join(b.Dir(), first)); err != nil || n.Student != "Ada Example" {
		t.Errorf("%+v, %v", n, err)
	}
}

// A remark is on a leg that was flown, is not endless, and there are not endlessly many.
func TestRemarkBounds(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	empty := entered(t, b, began.Add(time.Hour), "")
	must(t, b.Keep(id, reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""), flight(2, coach.Finished,
		coach.Met, coach.Good, 90, ""))))
	for _, c := range []struct {
		id, want string
		r        logbook.Remark
	}{
		{id, "no leg 3; its last one is leg 2", logbook.Remark{Leg: 3, Words: "x"}},
		{empty, "has no legs", logbook.Remark{Leg: 1, Words: "x"}},
		{id, "legs count from 1", logbook.Remark{Leg: -1, Words: "x"}},
		{id, "U+001B", logbook.Remark{Words: "late\x1b[31m"}},
		{id, "U+009B", logbook.Remark{Words: "late\u009b31m"}},
		{id, "U+202E", logbook.Remark{Words: "\u202eetal"}},
		{id, "U+0007", logbook.Remark{Words: "x", By: "B.\x07"}},
		{id, "4001 letters", logbook.Remark{Words: strings.Repeat("x", folder.MaxWords+1)}},
		{id, "81 letters", logbook.Remark{Words: "x", By: strings.Repeat("x", names.Longest+1)}},
		{id, "no words", logbook.Remark{Words: " \n\t"}},
	} {
		_, err := b.Remark(who.Owner(), c.id, c.r)
		if _, ok := err.(*logbook.Refused); !ok || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.r, err, c.want)
		}
	}
	for _, leg := range []int{0, 1, 2} {
		if _, err := b.Remark(who.Owner(), id, logbook.Remark{Leg: leg, Words: "x"}); err != nil {
			t.Errorf("leg %d: %v", leg, err)
		}
	}
	there, err := b.Acts(id)
	must(t, err)
	var more []logbook.Act
	for n := 4; n <= folder.MaxRemarks; n++ {
		more = append(more, logbook.Act{ID: ids.New(began), Kind: logbook.ActRemark, Number: n, Words: "x"})
	}
	must(t, (&folder.Edit{Dir: filepath.Join(b.Dir(), id), Notes: &folder.Notes{}, Acts: there, Added: more}).Write())
	if _, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "one more"}); err == nil ||
		!strings.Contains(err.Error(), "500 remarks, as many as are kept") {
		t.Errorf("%v", err)
	}
	if _, err := b.Remark(who.Owner(), empty, logbook.Remark{Words: "another session"}); err != nil {
		t.Error(err)
	}
}
