package desk

import (
	"net/netip"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// idOf lets a sender fly, and returns the id that the opening of its session names.
func idOf(t *testing.T, d *Desk, doing *doer, address string) string {
	t.Helper()
	at := netip.MustParseAddrPort(address)
	s, ok := doing.seats[at].(*seat)
	if !ok {
		s = d.Seat(at).(*seat)
		doing.seats[at] = s
	}
	s.Datagram([]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0}`), time.Now())
	if !ids.Valid(s.opening.StationID) {
		t.Errorf("%s: the session is of station %q", address, s.opening.StationID)
	}
	return s.opening.StationID
}

// A station keeps its id over ports, sessions and starts; two that send at once have one each.
func TestStationIDs(t *testing.T) {
	d, doing := newDesk(t, Named{Address: netip.MustParseAddrPort("192.168.1.20:0"), Name: "Seat 3"})
	seat3 := idOf(t, d, doing, "192.168.1.20:1")
	second := idOf(t, d, doing, "192.168.1.20:2") // both send now
	other := idOf(t, d, doing, "192.168.1.30:1")
	twin := idOf(t, d, doing, "192.168.1.30:2")
	seen := map[string]bool{seat3: true, second: true, other: true, twin: true}
	if len(seen) != 4 {
		t.Fatalf("four stations have the ids %v", seen)
	}
	if err := d.Do(t.Context(), commanded("Seat 3", command.End{})); err != nil {
		t.Fatal(err)
	}
	choose := command.Choose{Choice: maneuver.Choice{Maneuver: "lazy-eight"}}
	if err := d.Do(t.Context(), commanded("Seat 3", choose)); err != nil { // begins the next session
		t.Fatal(err)
	}
	if again := idOf(t, d, doing, "192.168.1.20:1"); again != seat3 {
		t.Error("the next session is of another station")
	}
	for address, s := range doing.seats {
		s.End()
		delete(doing.seats, address)
	}
	if len(d.held) != 0 {
		t.Errorf("stations that have left are held: %v", d.held)
	}
	later, nowDoing := newDesk(t, Named{Address: netip.MustParseAddrPort("192.168.1.30:0"), Name: "Bench"})
	later.cfg.Stations, later.cfg.Book = d.cfg.Stations, d.cfg.Book
	if id := idOf(t, later, nowDoing, "192.168.1.30:7"); id != other && id != twin {
		t.Error("a station that got a name is another one")
	}
	if id := idOf(t, later, nowDoing, "192.168.1.20:9"); id != seat3 && id != second {
		t.Error("a station that lost its name is another one")
	}
}

// What was last chosen at a station is known by its id, and of earlier versions by its name.
func TestLastChosenByID(t *testing.T) {
	at := netip.MustParseAddrPort("192.168.1.20:1")
	d, doing := newDesk(t)
	if err := d.cfg.Book.RememberStation(who.Owner(), "192.168.1.20", maneuver.Choice{Maneuver: "lazy-eight"}); err != nil {
		t.Fatal(err)
	}
	if n := d.named(at); n.Maneuver != "lazy-eight" {
		t.Errorf("an earlier version's choice is gone: %+v", n)
	}
	idOf(t, d, doing, at.String())
	choose := command.Choose{Choice: maneuver.Choice{Maneuver: "wing-over", Standard: "check"}}
	if err := d.Do(t.Context(), commanded(at.String(), choose)); err != nil {
		t.Fatal(err)
	}
	doing.seats[at].End()
	d.cfg.Named = []Named{{Address: netip.MustParseAddrPort("192.168.1.20:0"), Name: "Seat 3", Maneuver: "chandelle-civil"}}
	if n := d.named(at); n.Name != "Seat 3" || n.Maneuver != "wing-over" || n.Standard != "check" {
		t.Errorf("with its new name the station flies %+v", n)
	}
}
