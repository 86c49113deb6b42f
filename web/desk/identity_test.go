package desk

import (
	"net/netip"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/stations"
	"halfturn/coach/who"
	"halfturn/web/desk/identity"
)

// idOf lets a sender fly, and returns the id of its station.
func idOf(t *testing.T, d *Desk, doing *doer, address string) string {
	t.Helper()
	at := netip.MustParseAddrPort(address)
	s, ok := doing.handlers[at].(*station)
	if !ok {
		s = d.Station(at).(*station)
		doing.handlers[at] = s
	}
	s.Datagram([]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0}`), time.Now())
	id, err := s.practice.Do(commanded(s.name, command.Student{}), time.Now())
	if err != nil || !ids.Valid(id) {
		t.Errorf("%s: the session is of station %q, %v", address, id, err)
	}
	return id
}

// A station keeps its id over ports, sessions and starts; two that send at once have one each.
func TestStationIDs(t *testing.T) {
	register := new(stations.Register)
	d, doing := changedDesk(t, func(cfg *Config) { cfg.Stations = register },
		identity.Sender{Address: netip.MustParseAddrPort("192.168.1.20:0"), Name: "Seat 3"})
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
	for address, s := range doing.handlers {
		s.End()
		delete(doing.handlers, address)
	}
	later, nowDoing := changedDesk(t, func(cfg *Config) { cfg.Stations, cfg.Book = register, d.cfg.Book },
		identity.Sender{Address: netip.MustParseAddrPort("192.168.1.30:0"), Name: "Bench"})
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
	register := new(stations.Register)
	d, doing := changedDesk(t, func(cfg *Config) { cfg.Stations = register })
	if err := d.cfg.Book.RememberStation(who.Owner(), "192.168.1.20",
		maneuver.Choice{Maneuver: "lazy-eight"}); err != nil {
		t.Fatal(err)
	}
	if n := d.directory.Of(at); n.Choice.Maneuver != "lazy-eight" {
		t.Errorf("an earlier version's choice is gone: %+v", n)
	}
	idOf(t, d, doing, at.String())
	choose := command.Choose{Choice: maneuver.Choice{Maneuver: "wing-over", Standard: "check"}}
	if err := d.Do(t.Context(), commanded(at.String(), choose)); err != nil {
		t.Fatal(err)
	}
	doing.handlers[at].End()
	later, _ := changedDesk(t, func(cfg *Config) { cfg.Stations, cfg.Book = register, d.cfg.Book },
		identity.Sender{
			Address: netip.MustParseAddrPort("192.168.1.20:0"),
			Name:    "Seat 3",
			Choice:  maneuver.Choice{Maneuver: "chandelle-civil"},
		})
	if n := later.directory.Of(at); n.Name != "Seat 3" || n.Choice.Maneuver != "wing-over" ||
		n.Choice.Standard != "check" {
		t.Errorf("with its new name the station flies %+v", n)
	}
}

// commanded is a command as a page sends it.
func commanded(station string, a command.Action) command.Command {
	now := time.Now()
	return command.New(ids.New(now), now, station, who.Owner(), a)
}

// TestCommandForNobody: a command to a station that is not there is refused.
func TestCommandForNobody(t *testing.T) {
	d, _ := newDesk(t)
	if err := d.Do(t.Context(), commanded("nobody", command.End{})); err == nil {
		t.Error("a station that is not there is ended")
	}
}
