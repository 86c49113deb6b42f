package postgres

import (
	"errors"
	"testing"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// TestAwayAtTheStart: a node is started while PostgreSQL is away. Sessions are named and recorded; questions and
// changes say that the database is away, and so does what waits. Once it is back, all of it is entered.
func TestAwayAtTheStart(t *testing.T) {
	chosen := maneuver.Choice{Maneuver: "steep-turn"}
	dsn := cluster.New(t)
	made, err := Engine{DSN: dsn}.Open("", false)
	must(t, err, made.RememberStation(who.Owner(), "seat", chosen, booktest.Began), made.Close())
	cluster.Stop() // those who run in parallel have not begun
	started := false
	defer func() {
		if !started {
			must(t, cluster.Start())
		}
	}()

	options := archive.Options{Engine: Engine{DSN: dsn}, Await: true}
	told := ""
	options.Tell = func(words string) { told += words }
	without := options
	without.Await = false
	if _, err := archive.Open(t.TempDir(), without); !errors.Is(err, logbook.ErrAway) {
		t.Errorf("not told to wait it says %v", err)
	}
	book, err := archive.Open(t.TempDir(), options)
	must(t, err)
	defer book.Close()
	if book.Waits() != nil || !errors.Is(book.Away(), logbook.ErrAway) || told == "" {
		t.Errorf("waits %v, away %v; told %q", book.Waits(), book.Away(), told)
	}
	writer := queue.New(book, func(error) {})
	closed := false
	defer func() {
		if !closed {
			writer.Close()
		}
	}()
	if says := writer.Lacking(time.Now()); len(says) != 1 {
		t.Errorf("what waits is %v", says)
	}
	id, err := book.NewID(booktest.Began, "seat")
	must(t, err)
	writer.Begin(*booktest.Entry(id, booktest.Began, "Ada Example"))
	writer.Keep(id, scored(90).Report)
	writer.End(id, booktest.Began.Add(time.Hour))
	if _, err := book.List(t.Context(), logbook.Filter{}); !errors.Is(err, logbook.ErrAway) {
		t.Errorf("a question: %v", err)
	}
	if _, _, err := book.StationChoice("seat"); err != nil {
		t.Errorf("a station that begins: %v", err)
	}
	if mended, err := book.Mend(t.Context()); mended || !errors.Is(err, logbook.ErrAway) || book.Waits() != nil {
		t.Errorf("mended %v, %v", mended, err)
	}
	must(t, cluster.Start())
	started = true
	if mended, err := book.Mend(t.Context()); !mended || err != nil || book.Away() != nil {
		t.Errorf("mended %v, %v, while PostgreSQL is back", mended, err)
	}
	writer.Close()
	closed = true
	list, err := book.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].Legs != 1 || list.Sessions[0].Ended == "" {
		t.Errorf("%+v", list.Sessions)
	}
	if c, ok, err := book.StationChoice("seat"); !ok || err != nil || c != chosen {
		t.Errorf("%+v, %v, %v", c, ok, err)
	}
}
