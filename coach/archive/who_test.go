package archive

import (
	"database/sql"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// Who asked for a change that leaves no act is logged; a choice that is remembered and another grading say it
// themselves.
func TestWhoAsks(t *testing.T) {
	data, was := sat(t)
	ada := who.Who{Name: "Ada"}
	var logged []string
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Log: func(done string, by who.Who, id string) {
		logged = append(logged, done+" by "+by.Name+" "+id)
	}})
	must(t, err)
	defer b.Close()
	id := newID(t, b, "seat")
	must(t, b.Discard(ada, id), b.RememberStation(ada, "seat", maneuver.Choice{Maneuver: "wing-over"}))
	last, oldest := was.Sessions[0].ID, was.Sessions[2].ID
	_, err = b.Regrade(ada, last, logbook.Grading{At: began, Report: reportOf(last)})
	must(t, err)
	notes, err := folder.ReadNotes(filepath.Join(b.Dir(), last))
	if err != nil || len(notes.Regrades) != 1 || notes.Regrades[0].By != ada {
		t.Errorf("graded again: %+v, %v", notes, err)
	}
	old := Retention{Age: 46*time.Hour + time.Minute}
	for _, dry := range []bool{true, false} {
		gone, err := b.Prune(t.Context(), ada, old, began.Add(46*time.Hour+3*time.Minute), dry)
		if err != nil || len(gone) != 1 || gone[0].ID != oldest || gone[0].By != ada {
			t.Errorf("removed: %+v, %v", gone, err)
		}
	}
	_, err = b.Rebuild(t.Context(), ada, nil)
	must(t, err)
	want := []string{"session discarded by Ada " + id, "session removed by age by Ada " + oldest,
		"logbook rebuilt by Ada "}
	if d := cmp.Diff(want, logged); d != "" {
		t.Errorf("(-want +logged):\n%s", d)
	}
	db, err := sql.Open("sqlite", b.file)
	must(t, err)
	defer db.Close()
	var text string
	must(t, db.QueryRow(`SELECT choice FROM stations`).Scan(&text))
	var kept struct {
		Maneuver string
		By       who.Who
	}
	if must(t, json.Unmarshal([]byte(text), &kept)); kept.Maneuver != "wing-over" || kept.By != ada {
		t.Errorf("remembered: %s", text)
	}
}

// A data directory of an earlier version opens, lists, shows, takes a remark and is pruned.
func TestOldDirectory(t *testing.T) {
	const id = "2030-03-01T10-00-00Z_Seat-3"
	data := t.TempDir()
	must(t, os.CopyFS(folder.Sessions(data), os.DirFS("testdata/old")))
	b := openedBy(t, data, sqlite.Engine{})
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.LeftOut.Total != 0 || list.Sessions[0].ID != id || list.Sessions[0].Station != "Seat 3" {
		t.Errorf("listed: %+v", list)
	}
	d, err := b.Session(t.Context(), id)
	if err != nil || d.Student != "Ada Example" || len(d.Said) != 2 || d.Problem.IsZero() {
		t.Errorf("shown: %+v, %v", d, err)
	}
	if r, err := b.Report(t.Context(), id, 1); err != nil || r.Session.Began != d.Began {
		t.Errorf("reported: %+v, %v", r, err)
	}
	said, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "one more"})
	if err != nil || said.ID != 4 {
		t.Errorf("the remark is number %d; must be 4, after 1 and 3: %v", said.ID, err)
	}
	all := Retention{Age: time.Hour}
	later := began.AddDate(10, 0, 0)
	if gone, err := b.Prune(t.Context(), who.Owner(), all, later, false); err != nil || len(gone) != 0 {
		t.Errorf("it is marked keep, and was removed: %v, %v", gone, err)
	}
	must(t, b.SetKeep(who.Owner(), id, false))
	if gone, err := b.Prune(t.Context(), who.Owner(), all, later, false); err != nil || len(gone) != 1 {
		t.Errorf("removed: %v, %v", gone, err)
	}
	if _, err := os.Stat(filepath.Join(b.Dir(), id)); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("its folder: %v", err)
	}
}
