package archive

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/stream/record"
)

// received writes a piece of a recording that comes from a home, as a school does.
func received(t *testing.T, a *Archive, id, text string) {
	t.Helper()
	f, err := os.OpenFile(filepath.Join(a.Dir(), id, record.PartName(1)), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o640)
	must(t, err)
	_, err = f.WriteString(text)
	must(t, err, f.Close())
}

// TestAdopt: the home of a session goes from one node to another and back. Each time the node that it comes to goes on
// with the session, with what was added meanwhile, and the other one neither ends nor enters it. In the end it is there
// once, and as the last node received it.
func TestAdopt(t *testing.T) {
	for _, moves := range []int{1, 2, 3} {
		c := newCluster(t)
		nodes := []*Archive{c.node(t, "a", "", nil), c.node(t, "b", "", nil)}
		entry := *booktest.Entry("", began, "Ada Example")
		entry.Key = ""
		const session, station = "2031-05-04T09-00-07Z_home", "home"
		first, err := nodes[0].Receive(station, session, entry)
		must(t, err)
		id := first.ID
		received(t, nodes[0], id, "half ")
		_, err = nodes[0].Send(t.Context(), id, Sending{})
		must(t, err)
		for n := range moves {
			here, there := nodes[(n+1)%2], nodes[n%2]
			r, ok := here.Received(station, session)
			if !ok || r.ID != id || r.Done {
				t.Fatalf("%d: the session is known as %+v, %v", n, r, ok)
			}
			must(t, here.Adopt(id), here.Adopt(id))
			_ = os.Remove(filepath.Join(here.Dir(), id, record.PartName(1)))
			received(t, here, id, "half and ")
			must(t, remarked(here, id, "said here"))
			if all, err := here.Awaited(); err != nil || len(all) != 1 || all[0].ID != id {
				t.Errorf("%d: here is awaited %+v, %v", n, all, err)
			}
			if whole, err := there.Send(t.Context(), id, Sending{}); !whole || err != nil {
				t.Errorf("%d: the other node stores %v, %v", n, whole, err)
			}
			if all, err := there.Awaited(); err != nil || len(all) != 0 {
				t.Errorf("%d: there is awaited %+v, %v", n, all, err)
			}
			left := Awaited{Shared: folder.Shared{Station: station, Session: session}, ID: id}
			bad := reportOf(id, flight(1, coach.Finished, coach.Missed, coach.Unable, 10, ""))
			err := there.Leave(left, bad, began.Add(time.Hour), folder.Left{At: began})
			if !errors.Is(err, remote.ErrFenced) {
				t.Errorf("%d: ended there: %v", n, err)
			}
			if err := there.Complete(id, bad, logbook.Entry{Ended: began}); !errors.Is(err, remote.ErrFenced) {
				t.Errorf("%d: completed there: %v", n, err)
			}
			must(t, remarked(there, id, "said there")) // whoever adds something may do so at any node
		}
		last, other := nodes[moves%2], nodes[(moves+1)%2]
		good := reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))
		must(t, last.Complete(id, good, logbook.Entry{Station: station, Ended: began.Add(time.Minute)}))
		sent(t, last, id)
		for _, a := range nodes {
			if r, ok := a.Received(station, session); !ok || !r.Done {
				t.Errorf("after %d moves it is known as %+v, %v", moves, r, ok)
			}
			list, err := a.List(t.Context(), logbook.Filter{})
			must(t, err)
			if len(list.Sessions) != 1 || list.Sessions[0].Grade != coach.Good || list.Sessions[0].Remarks != 2*moves ||
				list.Sessions[0].Ended == "" {
				t.Errorf("after %d moves: %+v", moves, list.Sessions)
			}
		}
		_, err = other.Evict(t.Context(), Eviction{})
		must(t, err)
		if _, err := os.Stat(filepath.Join(other.Dir(), id)); err == nil {
			t.Error("what the other node received stays for ever")
		}
		dir, err := other.Folder(id)
		must(t, err)
		if d := cmp.Diff(bytesIn(t, filepath.Join(last.Dir(), id)), bytesIn(t, dir)); d != "" {
			t.Errorf("after %d moves (-there +here):\n%s", moves, d)
		}
	}
}

// TestAdoptAtOnce: the former node takes note only after the new one has it: while it enters something under its own
// fence, the logbook refuses that.
func TestAdoptAtOnce(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", "", nil), c.node(t, "b", "", nil)
	r, err := a.Receive("home", "2031-05-04T09-00-07Z_home", *booktest.Entry("", began, "Ada Example"))
	must(t, err, b.Adopt(r.ID))
	book, err := a.writable()
	must(t, err)
	var fenced *logbook.Fenced
	bad := reportOf(r.ID, flight(1, coach.Finished, coach.Missed, coach.Unable, 10, ""))
	must(t, b.Adopt(r.ID), a.Adopt(r.ID), b.Adopt(r.ID))
	if err := logbook.Under(book, 1).Keep(r.ID, bad); !errors.As(err, &fenced) {
		t.Errorf("under an old fence: %v", err)
	}
	c.depot.Off(true)
	third := c.node(t, "c", "", nil)
	if err := third.Adopt(r.ID); err == nil {
		t.Error("adopted while nobody can say whose it is")
	}
	c.depot.Off(false)
	must(t, third.Adopt(r.ID))
}
