package identity

import (
	"errors"
	"net/netip"
	"testing"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/stations"
	"halfturn/coach/who"
)

var now = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

func at(s string) netip.AddrPort { return netip.MustParseAddrPort(s) }

// TestOf: an entry with a port takes precedence over one without, and senders that nobody named are called by their
// address.
func TestOf(t *testing.T) {
	d := New(Config{
		Named: []Sender{
			{Address: at("192.168.1.20:0"), Name: "Seat 3", Choice: maneuver.Choice{Maneuver: "lazy-eight"}},
			{Address: at("192.168.1.20:49001"), Name: "Seat 4", Student: "Ada Example"},
		},
		Other: Sender{Choice: maneuver.Choice{Maneuver: "wing-over"}},
	})
	for _, c := range []struct{ address, name, maneuver, student, place string }{
		{"192.168.1.20:1", "Seat 3", "lazy-eight", "", "192.168.1.20"},
		{"192.168.1.20:49001", "Seat 4", "", "Ada Example", "192.168.1.20:49001"},
		{"192.168.1.21:1", "192.168.1.21:1", "wing-over", "", "192.168.1.21"},
		{"[2001:db8::1]:1", "[2001:db8::1]:1", "wing-over", "", "2001:db8::1"},
	} {
		s := d.Of(at(c.address))
		if s.Name != c.name || s.Choice.Maneuver != c.maneuver || s.Student != c.student {
			t.Errorf("%s is %+v", c.address, s)
		}
		if place := s.Place(at(c.address)); place != c.place {
			t.Errorf("%s sends from %q; must be %q", c.address, place, c.place)
		}
	}
}

// TestLasting: only the port of an address changes with a restart.
func TestLasting(t *testing.T) {
	for name, want := range map[string]string{
		"192.168.1.20:50000":  "192.168.1.20",
		"[2001:db8::1]:49002": "2001:db8::1",
		"192.168.1.20":        "192.168.1.20",
		"Seat 3":              "Seat 3",
		"Seat 3:1":            "Seat 3:1",
		"":                    "",
	} {
		if got := Lasting(name); got != want {
			t.Errorf("of %q %q lasts; must be %q", name, got, want)
		}
	}
}

// TestHold: a holder keeps its station, a second one of the same name has another, and a station that was released is
// the same for the next.
func TestHold(t *testing.T) {
	d := New(Config{})
	one, two := new(int), new(int)
	first := d.Hold(one, "192.168.1.20:1", "192.168.1.20", now)
	if again := d.Hold(one, "192.168.1.20:1", "192.168.1.20", now); again != first {
		t.Error("a holder has two stations")
	}
	second := d.Hold(two, "192.168.1.20:2", "192.168.1.20", now)
	if second == first {
		t.Error("two hold one station")
	}
	d.Release(two, first) // it is not its own
	if other := d.Hold(new(int), "192.168.1.20:3", "192.168.1.20", now); other == first || other == second {
		t.Error("a station is taken from its holder")
	}
	d.Release(one, first)
	if next := d.Hold(new(int), "192.168.1.20:4", "192.168.1.20", now); next != first {
		t.Error("after a release it is another station")
	}
}

// TestRenamed: a station that the configuration names from now on stays what it was, unless its old name is that of
// another sender, or somebody flies there.
func TestRenamed(t *testing.T) {
	for what, c := range map[string]struct {
		named []Sender
		held  bool
		same  bool
	}{
		"named":           {[]Sender{{Name: "Bench"}}, false, true},
		"somebody flies":  {[]Sender{{Name: "Bench"}}, true, false},
		"another's name":  {[]Sender{{Name: "Bench"}, {Name: "192.168.1.20"}}, false, false},
		"the same to all": {nil, false, true},
	} {
		register := new(stations.Register)
		before := New(Config{Stations: register})
		id := before.Hold(1, "192.168.1.20:1", "192.168.1.20", now)
		after := New(Config{Stations: register, Named: c.named})
		if c.held {
			after.Restore(2, stations.Station{ID: id, Name: "192.168.1.20:1", Sender: "192.168.1.20", Seen: now})
		}
		if got := after.Hold(3, "Bench", "192.168.1.20", now); (got == id) != c.same {
			t.Errorf("%s: the same station %v", what, got == id)
		}
	}
}

// TestRestore: a session of the last run holds its station; one of an earlier version has none to hold.
func TestRestore(t *testing.T) {
	d := New(Config{})
	id := New(Config{}).Hold(1, "Seat 3", "192.168.1.20", now)
	d.Restore(1, stations.Station{ID: id, Name: "Seat 3", Sender: "192.168.1.20", Seen: now})
	d.Restore(2, stations.Station{Name: "Seat 4"})
	if got := d.Hold(1, "Seat 3", "192.168.1.20", now); got != id {
		t.Error("its own session has another station")
	}
	if got := d.Hold(2, "Seat 3", "192.168.1.20", now); got == id {
		t.Error("two hold one station")
	}
}

// TestLastChosen: what was chosen at a station is its choice again, by its id, or by its name as earlier versions had
// it. Cards that do not exist any more are no choice, and who wants to forget is not reminded.
func TestLastChosen(t *testing.T) {
	book, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = book.Close() })
	register := new(stations.Register)
	directory := func(forget bool) *Directory {
		return New(Config{
			Stations: register,
			Book:     book,
			Forget:   forget,
			Other:    Sender{Choice: maneuver.Choice{Maneuver: "wing-over"}},
			Check: func(c maneuver.Choice) error {
				if c.Maneuver == "gone" {
					return errors.New("there is no such card")
				}
				return nil
			},
			Warn: func(err error, station, words string) { t.Error(err, station, words) },
		})
	}
	d := directory(false)
	seat := at("192.168.1.20:1")
	id := d.Hold(1, seat.String(), seat.Addr().String(), now)
	flies := func(want string) {
		t.Helper()
		if s := d.Of(seat); s.Choice.Maneuver != want {
			t.Errorf("it flies %q; must be %q", s.Choice.Maneuver, want)
		}
	}
	flies("wing-over")
	d.Chose(who.Owner(), "", "192.168.1.20", maneuver.Choice{Maneuver: "chandelle-civil"}) // an earlier version
	flies("chandelle-civil")
	d.Chose(who.Owner(), "", id, maneuver.Choice{Maneuver: "lazy-eight"})
	flies("lazy-eight")
	d.Chose(who.Owner(), "", id, maneuver.Choice{Maneuver: "gone"})
	flies("wing-over")
	forgetful := directory(true)
	forgetful.Chose(who.Owner(), "", id, maneuver.Choice{Maneuver: "steep-turn"})
	flies("wing-over")
	d.Chose(who.Owner(), "", id, maneuver.Choice{Maneuver: "lazy-eight"})
	if s := forgetful.Of(seat); s.Choice.Maneuver != "wing-over" {
		t.Errorf("who forgets flies %q", s.Choice.Maneuver)
	}
}
