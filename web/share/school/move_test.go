package school_test

import (
	"path/filepath"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive"
	"halfturn/coach/archive/depot/directory"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
)

// at is the logbook that several nodes share, in a file.
type at struct {
	sqlite.Engine
	file string
}

func (e at) Open(_ string, check bool) (logbook.Book, error) { return e.Engine.Open(e.file, check) }

// TestMoves: a home flies while its link goes from one node of a school to another, and back where it goes twice. At
// each it goes on; the session is there once, its recording is that at home to the byte, wherever it is asked for, and
// the node that the home has left does not end it.
func TestMoves(t *testing.T) {
	for _, moves := range []int{1, 2} {
		synctest.Test(t, func(t *testing.T) {
			depot, err := directory.Open(filepath.Join(t.TempDir(), "depot"))
			if err != nil {
				t.Fatal(err)
			}
			engine, doors := at{file: filepath.Join(t.TempDir(), "logbook.db")}, &pipes{}
			var nodes []*building
			for _, name := range []string{"a", "b"} {
				m := newMachineWith(t, t.TempDir(), nil, archive.Options{
					Engine:  engine,
					Version: "1",
					Depot:   archive.Depot{In: depot, Node: name, Fresh: -1},
				})
				nodes = append(nodes, open(t, m, keys, doors))
			}
			nodes[0].answers()
			h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
			f := h.fly(t, 3)
			f.goOn(20 * time.Second)
			for n := range moves {
				doors.set(true)
				f.goOn(5 * time.Second)
				nodes[(n+1)%2].answers()
				doors.set(false)
				settled(t, "the link is not back", func() bool {
					f.goOn(time.Second)
					s := nodes[(n+1)%2].info("Ada's seat")
					return s != nil && s.Share != nil && s.Share.Up && s.Link == "live" && s.Share.Behind == 0
				})
				f.goOn(10 * time.Second)
			}
			f.goOn(time.Hour)
			f.handler.End()
			last, other := nodes[moves%2], nodes[(moves+1)%2]
			session := h.only(t)
			id := last.complete(t, "Ada's seat", session)
			equal(t, h, session, last, id)
			<-time.After(2 * patience) // the other node would have ended it by now
			synctest.Wait()
			list, err := other.book.List(t.Context(), logbook.Filter{})
			if err != nil || len(list.Sessions) != 1 || list.Sessions[0].Legs != 3 || list.Sessions[0].Ended == "" {
				t.Errorf("the logbook has %+v, %v", list, err)
			}
			if whole, err := last.book.Send(t.Context(), id, archive.Sending{}); !whole || err != nil {
				t.Errorf("the depot has all of it: %v, %v", whole, err)
			}
			dir, err := other.book.Folder(id)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(h.files(t, session), filesIn(t, dir)); d != "" {
				t.Errorf("asked of the other node it differs (-home +school):\n%s", d)
			}
			h.close(t)
			for _, n := range nodes {
				n.close(t)
			}
		})
	}
}
