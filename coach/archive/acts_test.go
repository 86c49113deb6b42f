package archive

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/folder"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

// TestOldFolder: what people added to a session stood in its notes once. It is read from there, and carried over with
// the first change: nothing is lost, and nothing gets another id.
func TestOldFolder(t *testing.T) {
	const id = "2030-03-01T10-00-00Z_Seat-3"
	for what, change := range map[string]func(b *Archive) error{
		"an act": func(b *Archive) error {
			_, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "one more", At: began})
			return err
		},
		"its end":  func(b *Archive) error { return b.End(id, began) },
		"it again": func(b *Archive) error { return b.Begin(logbook.Entry{ID: id, Station: "Seat 3", Began: began}) },
		"a regrade": func(b *Archive) error {
			_, err := b.Regrade(who.Owner(), id, logbook.Grading{At: began, Report: reportOf(id)})
			return err
		},
	} {
		t.Run(what, func(t *testing.T) {
			data := t.TempDir()
			must(t, os.CopyFS(folder.Sessions(data), os.DirFS("testdata/old")))
			b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
			must(t, err)
			defer b.Close()
			d, err := b.Session(t.Context(), id)
			must(t, err)
			if d.Student != "Ada Example" || !d.Keep || d.Remarks != 2 || d.Said[1].ID != 3 || d.Said[1].Leg != 2 ||
				*d.Said[1].Time != 61.5 {
				t.Errorf("%+v", d)
			}
			was, err := b.Acts(id)
			must(t, err)
			notes, err := folder.ReadNotes(filepath.Join(b.Dir(), id))
			must(t, err)
			if _, err := os.Stat(filepath.Join(b.Dir(), id, folder.ActsFile)); !errors.Is(err, fs.ErrNotExist) {
				t.Errorf("reading it changed the folder: %v", err)
			}
			if want := logbook.LegID(notes.Began, notes.Key, 2); len(was) != 3 || was[1].About.Leg != want ||
				was[2].Kind != logbook.ActKeep {
				t.Errorf("%+v", was)
			}
			for _, a := range was {
				if !ids.Valid(a.ID) || a.About.Session != notes.Key || !ids.Valid(notes.Key) {
					t.Errorf("%+v of session %q", a, notes.Key)
				}
			}
			must(t, change(b))
			is, err := b.Acts(id)
			must(t, err)
			if d := cmp.Diff(was, is[:min(len(is), 3)]); d != "" {
				t.Errorf("(-was +is):\n%s", d)
			}
			if again, err := folder.ReadNotes(filepath.Join(b.Dir(), id)); err != nil || again.Key != notes.Key {
				t.Errorf("%+v, %v", again, err)
			}
			all := whole(t, b)
			folderAgrees(t, b)
			if all.Sessions[0].Remarks != len(is)-1 || !all.Sessions[0].Keep ||
				all.Sessions[0].Student != "Ada Example" {
				t.Errorf("%+v", all.Sessions[0])
			}
			_, err = b.Rebuild(t.Context(), who.Owner(), nil)
			must(t, err)
			if d := cmp.Diff(all.Details[0].Said, whole(t, b).Details[0].Said); d != "" {
				t.Errorf("rebuilt (-was +is):\n%s", d)
			}
		})
	}
}

// TestActsAreKept: an act says what it is about, who asked for it and when; nothing is written where nothing changes.
func TestActsAreKept(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	must(t, b.Keep(id, reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))))
	asks := who.Who{Name: "somebody"}
	r, err := b.Remark(asks, id, logbook.Remark{Leg: 1, Time: p(12.5), By: "B. Example", Words: "late",
		At: began.Add(time.Hour)})
	must(t, err)
	for range 2 {
		must(t, b.SetKeep(asks, id, true), b.SetStudent(asks, id, "Ada Example"))
	}
	must(t, b.SetKeep(who.Owner(), id, false))
	acts, err := b.Acts(id)
	must(t, err)
	n, err := folder.ReadNotes(filepath.Join(b.Dir(), id))
	must(t, err)
	about := logbook.About{Session: n.Key}
	onLeg := about
	onLeg.Leg, onLeg.Number, onLeg.Moment = logbook.LegID(n.Began, n.Key, 1), 1, p(12.5)
	e, err := b.book.Entry(t.Context(), id)
	must(t, err)
	want := []logbook.Act{
		{Kind: logbook.ActRemark, By: asks, About: onLeg, Number: 1, Author: "B. Example", Words: "late"},
		{Kind: logbook.ActKeep, By: asks, About: about, Keep: true},
		{Kind: logbook.ActStudent, By: asks, About: about, Student: &logbook.Student{ID: e.Student.ID,
			Name: "Ada Example"}},
		{Kind: logbook.ActKeep, By: who.Owner(), About: about},
	}
	seen := map[string]bool{}
	for i := range acts {
		a := &acts[i]
		if !ids.Valid(a.ID) || seen[a.ID] || a.At.IsZero() {
			t.Errorf("%+v", a)
		}
		seen[a.ID] = true
		if i == 0 && a.ID != r.Key {
			t.Errorf("the remark is %s, told was %s", a.ID, r.Key)
		}
		a.ID, a.At = "", time.Time{}
	}
	if d := cmp.Diff(want, acts); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// TestActTorn: a line of which the end is missing counts for nothing, and the next act takes its place. One that cannot
// be read leaves the session out, with its place.
func TestActTorn(t *testing.T) {
	data, was := sat(t)
	id := was.Sessions[0].ID
	name := filepath.Join(data, "sessions", id, folder.ActsFile)
	whole, err := os.ReadFile(name)
	must(t, err, os.WriteFile(name, append(whole, `{"id":"01ARZ3NDEKTSV4RRFFQ69G5FAV","kind":"kee`...), 0o600))
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
	must(t, err)
	_, err = b.Rebuild(t.Context(), who.Owner(), nil)
	must(t, err)
	same(t, was, b)
	must(t, b.SetKeep(who.Owner(), id, true))
	if acts, err := b.Acts(id); err != nil || len(acts) != 2 || !acts[1].Keep {
		t.Errorf("%+v, %v", acts, err)
	}
	must(t, os.WriteFile(name, []byte("{\"kind\":\"keep\"}\nnot an act\n"), 0o600))
	if n, err := b.Rebuild(t.Context(), who.Owner(), nil); n != 2 || err != nil {
		t.Errorf("%d sessions, %v", n, err)
	}
	if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 1 ||
		!strings.Contains(out.Sessions[0].Why.String(),
			"line 2") {
		t.Errorf("%+v, %v", out, err)
	}
	must(t, b.Close())
}

// A mark is added once, under the id of its command however often it is tried; its words come later, once.
func TestWordsOfMarks(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "Ada Example")
	moment := 12.5
	mark := logbook.Remark{Key: "01RASFKVERTD18TS8WAPY7EWSN", Time: &moment, Words: logbook.Marked}
	for range 2 {
		if _, err := b.Remark(who.Owner(), id, mark); err != nil {
			t.Fatal(err)
		}
	}
	words := logbook.Remark{Mark: mark.Key, By: "Mo Example", Words: "Late with the foot"}
	got, err := b.Remark(who.Owner(), id, words)
	if err != nil || got.ID != 1 || got.Key != mark.Key || got.Time == nil || got.Words != words.Words {
		t.Errorf("%+v, %v", got, err)
	}
	d, err := b.Session(t.Context(), id)
	if err != nil || len(d.Said) != 1 || d.Said[0].Words != words.Words || d.Said[0].Key != mark.Key {
		t.Errorf("%+v, %v", d, err)
	}
	for says, r := range map[string]logbook.Remark{
		"its words already": words,
		"has no mark":       {Mark: "none", Words: "x"},
	} {
		if _, err := b.Remark(who.Owner(), id, r); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%+v: %v; must say %q", r, err, says)
		}
	}
}
