package queue

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/depot/directory"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
)

// at is one logbook, wherever its nodes have their data.
type at struct {
	sqlite.Engine
	file string
}

func (e at) Open(_ string, check bool) (logbook.Book, error) { return e.Engine.Open(e.file, check) }

// nodes opens the archives of two nodes that share a logbook and a depot. They hold sessions under fences 3 and 5.
func nodes(t *testing.T) (a, b *archive.Archive) {
	t.Helper()
	d, err := directory.Open(filepath.Join(t.TempDir(), "depot"))
	must(t, err)
	book := filepath.Join(t.TempDir(), "logbook.db")
	node := func(name string, fence uint64) *archive.Archive {
		n, err := archive.Open(t.TempDir(), archive.Options{
			Engine: at{file: book},
			Depot: archive.Depot{In: d, Node: name, Fresh: -1, Holds: func(string) (uint64, bool) {
				return fence, true
			}},
		})
		must(t, err)
		t.Cleanup(func() { must(t, n.Close()) })
		return n
	}
	return node("a", 3), node("b", 5)
}

// TestTaken: what waits of a session that another node has taken over is dropped, counted each time, and told once;
// that node has all of it. What was refused under a fence that this node has outgrown meanwhile is entered.
func TestTaken(t *testing.T) {
	for _, c := range []struct {
		name   string
		before uint64 // the fence of the other node
		gate   []uint64
		enters bool
	}{
		{"for good", 5, []uint64{3, 3, 3, 3, 3, 3}, false},
		{"and taken over again meanwhile", 5, []uint64{3, 7, 7, 7, 7, 7}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, b := nodes(t)
			id, err := a.Reserve(booktest.Began, "seat")
			must(t, err)
			e := logbook.Entry{ID: id, Station: "seat", Began: booktest.Began, Cards: booktest.Cards}
			if !b.Folders().Take(id) {
				t.Fatal("b has it")
			}
			good := booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))
			must(t, b.Under(c.before).Begin(e), b.Under(c.before).Keep(id, good))

			var told []string
			retry := make(chan time.Time)
			w := newRetrying(a, func(err error) { told = append(told, err.Error()) }, retry)
			asked := 0
			w.Gate(func(string) (uint64, error) {
				fence := c.gate[min(asked, len(c.gate)-1)]
				asked++
				return fence, nil
			})
			bad := booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Missed, coach.Fair, 10, ""))
			for range 3 {
				w.Keep(id, bad)
				retry <- time.Time{} // what was put is worked off
				retry <- time.Time{}
			}
			w.Close()
			of := 0
			for _, words := range told {
				if strings.Contains(words, id) {
					of++
				}
			}
			r, err := b.Report(t.Context(), id, 1)
			must(t, err)
			score := r.Files[0].Stations[0].Series[0].Legs[0].Score
			want := good
			if c.enters {
				want = bad
			}
			if is := want.Files[0].Stations[0].Series[0].Legs[0].Score; fmt.Sprint(score) != fmt.Sprint(is) {
				t.Errorf("the logbook has %v; must have %v", score, is)
			}
			if dropped := testutil.ToFloat64(w.taken.count); (dropped == 0) != c.enters || !c.enters && dropped != 3 {
				t.Errorf("%v times it was dropped", dropped)
			}
			if of != 1 || len(told) != 1 {
				t.Errorf("it is told %d times: %q", of, told)
			}
			if w.waiting() != 0 {
				t.Errorf("%d sessions wait", w.waiting())
			}
		})
	}
}

// TestTakenInDepot: the folder of a session that another node holds in the depot refuses what this one changes: that is
// dropped as well, and not tried again and again.
func TestTakenInDepot(t *testing.T) {
	a, b := nodes(t)
	id, err := a.Reserve(booktest.Began, "seat")
	must(t, err)
	e := logbook.Entry{ID: id, Station: "seat", Began: booktest.Began, Cards: booktest.Cards}
	if !b.Folders().Take(id) {
		t.Fatal("b has it")
	}
	must(t, b.Begin(e), a.Folders().Make(id))
	var told []error
	retry := make(chan time.Time)
	w := newRetrying(a, func(err error) { told = append(told, err) }, retry)
	for range 3 {
		w.End(id, booktest.Began.Add(time.Minute))
		retry <- time.Time{}
		retry <- time.Time{}
	}
	w.Close()
	var taken *Taken
	if len(told) != 1 || !errors.As(told[0], &taken) || taken.ID != id || w.waiting() != 0 {
		t.Errorf("told %q, %d sessions wait", told, w.waiting())
	}
}
