package school_test

import (
	"context"
	"path/filepath"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web/share/school"
)

// keys are those of the school in these tests.
var keys = keyring{"key-of-ada": "Ada's seat", "key-of-bo": "Bo's seat"}

// none is a home at which nothing can be done.
func none(command.Command) error { return nil }

// settled waits until a condition holds, for up to two minutes of the test's clock.
func settled(t *testing.T, what string, holds func() bool) {
	t.Helper()
	for range 240 {
		synctest.Wait()
		if holds() {
			return
		}
		<-time.After(time.Second / 2)
	}
	t.Fatalf("after two minutes: %s", what)
}

// complete waits until the school has a session of a home whole.
func (b *building) complete(t *testing.T, station, session string) string {
	t.Helper()
	settled(t, "the session is not complete", func() bool {
		r, ok := b.book.Received(station, session)
		return ok && r.Done
	})
	r, _ := b.book.Received(station, session)
	return r.ID
}

// only is the one session at a machine.
func (m *machine) only(t *testing.T) string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(m.book.Dir(), "*"))
	if err != nil || len(all) != 1 {
		t.Fatalf("sessions %v, %v; must be one", all, err)
	}
	return filepath.Base(all[0])
}

// equal holds the recording and the grades of a session at the school to those at home.
func equal(t *testing.T, h *house, session string, b *building, id string) {
	t.Helper()
	at, there := h.files(t, session), b.files(t, id)
	if len(at) == 0 || !cmp.Equal(at, there) {
		for name := range at {
			t.Errorf("%s has %d bytes at home and %d at the school, equal: %v", name, len(at[name]), len(there[name]),
				at[name] == there[name])
		}
		t.Errorf("%d files at home, %d at the school", len(at), len(there))
	}
	graded := h.grade(t, session)
	if d := cmp.Diff(graded, b.grade(t, id), cmp.Comparer(phrase.Phrase.Equal)); d != "" {
		t.Errorf("graded again (-home +school):\n%s", d)
	}
	kept, err := b.book.Report(t.Context(), id, 1)
	if err != nil {
		t.Fatal(err)
	}
	own, err := h.book.Report(t.Context(), session, 1)
	if err != nil {
		t.Fatal(err)
	}
	if d := debrief.Compare(own.Files[0].Stations, kept.Files[0].Stations); len(d) > 0 {
		t.Errorf("in the logbook of the school it differs: %v", d)
	}
}

// TestCutTwice: a station is shared while it flies, and the link is cut twice for 30 s. At home nothing is noticed, the
// pages of the school go on with what is new, and its recording becomes that at home to the byte.
func TestCutTwice(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors := &pipes{}
		b := newBuilding(t, t.TempDir(), keys, doors)
		h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
		f := h.fly(t, 3)
		f.goOn(10 * time.Second)
		if s := b.info("Ada's seat"); s == nil || s.Link != "live" || s.Share == nil || !s.Share.Up || s.Session == "" {
			t.Fatalf("the school shows %+v", s)
		}
		for range 2 {
			doors.set(true)
			f.goOn(30 * time.Second)
			if s := b.info("Ada's seat"); s.Share.Up || s.Share.Behind < 25 {
				t.Errorf("while the link is cut the school shows %+v", s.Share)
			}
			if s := h.info(seat.String()); s.Link != "live" || s.Share.Up || s.Share.With != "127.0.0.1" {
				t.Errorf("while the link is cut the home shows %+v, %+v", s, s.Share)
			}
			doors.set(false)
			settled(t, "the link is not back", func() bool {
				f.goOn(time.Second)
				s := b.info("Ada's seat")
				return s.Share.Up && s.Link == "live" && s.Share.Behind == 0
			})
		}
		f.goOn(time.Hour)
		f.handler.End()
		session := h.only(t)
		id := b.complete(t, "Ada's seat", session)
		if id != session {
			t.Errorf("the session is %q at home and %q at the school", session, id)
		}
		equal(t, h, session, b, id)
		row, err := b.book.Session(t.Context(), id)
		if err != nil || row.Station != "Ada's seat" || row.Legs != 3 || row.Ended == "" {
			t.Errorf("the logbook has %+v, %v", row, err)
		}
		if n := len(h.files(t, session)); n < 2 {
			t.Errorf("%d files: the end of one was not tried", n)
		}
		h.close(t)
		b.close(t)
	})
}

// TestLater: what was flown while there was no link is sent when the home starts again, also when the school stops in
// the middle. A session of the same name that another home sends is another session.
func TestLater(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors, data, at := &pipes{}, t.TempDir(), t.TempDir()
		h := newHouse(t, data, "key-of-ada", doors, none)
		twin := newHouse(t, t.TempDir(), "key-of-bo", doors, none)
		var wait sync.WaitGroup
		for _, flown := range []*house{h, twin} {
			f := flown.fly(t, 1)
			wait.Go(func() {
				f.goOn(time.Hour)
				f.handler.End()
			})
		}
		wait.Wait()
		session := h.only(t)
		if other := twin.only(t); other != session {
			t.Fatalf("the sessions are %q and %q; their names must be the same", session, other)
		}
		h.close(t)
		b := newBuilding(t, at, keys, doors)
		h = newHouse(t, data, "key-of-ada", doors, none)
		settled(t, "nothing is received", func() bool {
			r, ok := b.book.Received("Ada's seat", session)
			return ok && len(b.files(t, r.ID)) > 0
		})
		b.close(t)
		b = newBuilding(t, at, keys, doors)
		equal(t, h, session, b, b.complete(t, "Ada's seat", session))
		other := twin.only(t)
		if id := b.complete(t, "Bo's seat", other); !cmp.Equal(twin.files(t, other), b.files(t, id)) {
			t.Error("the recording of the other home differs")
		}
		if all, err := b.book.Folders().Unfinished(); err != nil || len(all) > 0 {
			t.Errorf("left over are %v, %v", all, err)
		}
		twin.close(t)
		h.close(t)
		b.close(t)
	})
}

// TestDamagedAtSchool: a file that a power failure left wrong is received again.
func TestDamagedAtSchool(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors, at := &pipes{}, t.TempDir()
		b := newBuilding(t, at, keys, doors)
		h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
		f := h.fly(t, 1)
		f.goOn(20 * time.Second)
		session := h.only(t)
		doors.set(true)
		r, ok := b.book.Received("Ada's seat", session)
		if !ok {
			t.Fatal("nothing was received")
		}
		parts, err := record.Parts(filepath.Join(b.book.Dir(), r.ID))
		if err != nil || len(parts) == 0 {
			t.Fatal(parts, err)
		}
		damage(t, parts[len(parts)-1])
		doors.set(false)
		f.goOn(time.Hour)
		f.handler.End()
		equal(t, h, session, b, b.complete(t, "Ada's seat", session))
		h.close(t)
		b.close(t)
	})
}

// TestCommands: what is asked for at the school is done at home, by whom it was asked for, and refused in the words of
// the home. Without a link it is refused at once.
func TestCommands(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors := &pipes{}
		b := newBuilding(t, t.TempDir(), keys, doors)
		var done []command.Command
		h := newHouse(t, t.TempDir(), "key-of-ada", doors, func(c command.Command) error {
			done = append(done, c)
			if _, end := c.Action.(command.End); end {
				return phrase.NothingFlown.Error(phrase.Name("station", c.Station))
			}
			return nil
		})
		f := h.fly(t, 1)
		f.goOn(5 * time.Second)
		desk := school.Desk{Desk: b.desk, Server: b.server}
		by := who.Who{ID: "u1", Name: "Bo Example", Role: who.RoleInstructor}
		ask := func(a command.Action) error {
			return desk.Do(t.Context(), command.New("c", time.Now(), "Ada's seat", by, a))
		}
		if err := ask(command.Again{}); err != nil {
			t.Error(err)
		}
		err := ask(command.End{})
		if said := phrase.OfError(err); said.Code() != phrase.NothingFlown.Of().Code() {
			t.Errorf("the home refuses by %v, %q", err, said.Code())
		}
		stations := func(c command.Command) string { return c.Station }
		if len(done) != 2 || done[0].By != by || stations(done[0]) != seat.String() {
			t.Errorf("at home is done %+v", done)
		}
		doors.set(true)
		synctest.Wait()
		err = ask(command.Again{})
		if said := phrase.OfError(err); said.Code() != phrase.ShareNoLink.Of().Code() {
			t.Errorf("without a link: %v", err)
		}
		if legs, ok := desk.Legs(t.Context(), "Ada's seat"); !ok || legs == nil {
			t.Error("what was flown is not known")
		}
		if _, ok := desk.Legs(context.Background(), "nobody"); ok {
			t.Error("a station that is not there has legs")
		}
		f.handler.End()
		h.close(t)
		b.close(t)
	})
}

// TestPrivate: what is flown privately is sent neither then nor later: the session that was shared ends, and another
// one begins when the pilot shares the station again.
func TestPrivate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors := &pipes{}
		b := newBuilding(t, t.TempDir(), keys, doors)
		h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
		f := h.fly(t, 3)
		private := func(on bool) {
			c := command.New("p", time.Now(), seat.String(), who.Owner(), command.Private{On: on})
			if err := h.desk.Do(t.Context(), c); err != nil {
				t.Error(err)
			}
		}
		f.goOn(20 * time.Second)
		shared := h.only(t)
		private(true)
		began := time.Now()
		f.goOn(time.Minute)
		if s := b.info("Ada's seat"); s == nil || !s.Private || s.Session != "" {
			t.Errorf("the school shows %+v", s)
		}
		if s := h.info(seat.String()); s == nil || !s.Private || s.Share != nil {
			t.Errorf("the home shows %+v", s)
		}
		private(false)
		ended := time.Now()
		f.goOn(time.Hour)
		f.handler.End()
		all, err := filepath.Glob(filepath.Join(h.book.Dir(), "*"))
		if err != nil || len(all) != 3 {
			t.Fatalf("at home are %v, %v; must be 3", all, err)
		}
		for i, dir := range all {
			id := filepath.Base(dir)
			if i == 1 { // by their time
				continue
			}
			equal(t, h, id, b, b.complete(t, "Ada's seat", id))
		}
		if id := filepath.Base(all[0]); id != shared {
			t.Errorf("the first is %q, and was %q", id, shared)
		}
		there, err := filepath.Glob(filepath.Join(b.book.Dir(), "*", "stream-*"))
		if err != nil || len(there) == 0 {
			t.Fatal(there, err)
		}
		r := record.Read(there)
		defer r.Close()
		for d, err := r.Next(); err == nil; d, err = r.Next() {
			if d.Received.After(began) && d.Received.Before(ended) {
				t.Fatalf("the school has what was flown privately at %v", d.Received)
			}
		}
		h.close(t)
		b.close(t)
	})
}

// TestAddedLater: what is added to a session at home while it is flown, and after it is complete, reaches the school
// once, in its order and as words of a student there; also what was added without a link, and after both have started
// again.
func TestAddedLater(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors, data, at := &pipes{}, t.TempDir(), t.TempDir()
		b := newBuilding(t, at, keys, doors)
		h := newHouse(t, data, "key-of-ada", doors, none)
		f := h.fly(t, 1)
		f.goOn(10 * time.Second)
		session := h.only(t)
		say := func(words string) {
			t.Helper()
			if _, err := h.book.Remark(who.Owner(), session, logbook.Remark{Words: words, At: time.Now()}); err != nil {
				t.Error(err)
			}
		}
		words := func(of *machine, id string) (all []string) {
			acts, err := of.book.Acts(id)
			if err != nil {
				t.Error(err)
			}
			for _, a := range acts {
				all = append(all, a.ID+" "+a.Words+a.Grade)
			}
			return all
		}
		say("in flight")
		settled(t, "a remark in flight", func() bool { return len(words(b.machine, session)) == 1 })
		f.goOn(time.Hour)
		f.handler.End()
		id := b.complete(t, "Ada's seat", session)
		say("at once")
		rating := logbook.Rating{Leg: 1, Grade: "fair"}
		if err := h.book.Rate(who.Owner(), session, rating); err != nil {
			t.Error(err)
		}
		settled(t, "what was added after the flight", func() bool { return len(words(b.machine, id)) == 3 })
		doors.set(true)
		say("without a link")
		doors.set(false)
		settled(t, "what was added without a link", func() bool { return len(words(b.machine, id)) == 4 })
		b.close(t)
		say("while the school is closed")
		h.close(t)
		b = newBuilding(t, at, keys, doors)
		h = newHouse(t, data, "key-of-ada", doors, none)
		settled(t, "what was added while it was closed", func() bool { return len(words(b.machine, id)) == 5 })
		if d := cmp.Diff(words(h.machine, session), words(b.machine, id)); d != "" {
			t.Errorf("(-home +school):\n%s", d)
		}
		acts, err := b.book.Acts(id)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range acts {
			if a.By != (who.Who{Name: "Ada's seat", Role: who.RoleStudent}) {
				t.Errorf("%q is by %+v", a.Words, a.By)
			}
		}
		h.close(t)
		b.close(t)
	})
}
