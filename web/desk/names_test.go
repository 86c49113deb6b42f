package desk

import (
	"context"
	"io"
	"net/netip"
	"strings"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/stream/ingest"
	"halfturn/web/hub"
)

// A doer runs in the caller's goroutine, for tests that are in one; those of life_test.go run the real one.
type doer struct {
	seats map[netip.AddrPort]ingest.Handler
	ended []netip.AddrPort

	meanwhile func() // happens while a seat ends; may be nil
}

func (*doer) Addresses() []netip.AddrPort { return nil }

func (d *doer) Send(_ context.Context, a netip.AddrPort, r ingest.Request) error {
	s, ok := d.seats[a]
	if !ok {
		return ingest.ErrNotThere
	}
	s.Take(r)
	return nil
}

func (d *doer) End(_ context.Context, a netip.AddrPort, r ingest.Request) error {
	s, ok := d.seats[a]
	if !ok {
		return ingest.ErrNotThere
	}
	if s.Take(r) {
		d.ended = append(d.ended, a)
		delete(d.seats, a)
		s.End()
		if d.meanwhile != nil {
			d.meanwhile()
		}
	}
	return nil
}

func newDesk(t *testing.T, named ...Named) (*Desk, *doer) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	book, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := book.Close(); err != nil {
			t.Error(err)
		}
	})
	metrics, err := ingest.NewMetrics(nil)
	if err != nil {
		t.Fatal(err)
	}
	log := zerolog.New(io.Discard)
	for i := range named {
		named[i].Maneuver = "wing-over"
	}
	d, err := New(Config{Library: lib, Maneuver: "wing-over", Named: named, Output: hub.New("0", log), Book: book, Metrics: metrics, Log: log}, prometheus.NewRegistry())
	if err != nil {
		t.Fatal(err)
	}
	doing := &doer{seats: map[netip.AddrPort]ingest.Handler{}}
	d.Attach(doing)
	return d, doing
}

// A name belongs to an address: with its port before without, one name for each who sends now, and
// taken from a silent one, as after a restart of the simulator.
func TestNames(t *testing.T) {
	at := netip.MustParseAddrPort
	d, doing := newDesk(t, Named{Address: at("192.168.1.20:0"), Name: "Seat 3"}, Named{Address: at("192.168.1.20:49001"), Name: "Seat 4"})
	now := time.Now()
	sit := func(address string) string {
		s := d.Seat(at(address))
		doing.seats[at(address)] = s
		s.Datagram([]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0}`), now)
		return s.(*seat).session.Info(0).Name
	}
	for _, c := range []struct{ address, want string }{
		{"192.168.1.21:50000", "192.168.1.21:50000"},
		{"192.168.1.20:50000", "Seat 3"},
		{"192.168.1.20:49001", "Seat 4"},
		{"192.168.1.20:50001", "Seat 3 (2)"},
		{"192.168.1.20:50002", "Seat 3 (3)"},
	} {
		if got := sit(c.address); got != c.want {
			t.Errorf("%s is %q, want %q", c.address, got, c.want)
		}
	}
	old := doing.seats[at("192.168.1.20:50000")].(*seat)
	old.hear(d, now.Add(-10*time.Second)) // that simulator went silent, and comes back
	if got := sit("192.168.1.20:50003"); got != "Seat 3" {
		t.Errorf("after a restart it is %q", got)
	}
	if len(doing.ended) != 1 || doing.ended[0] != at("192.168.1.20:50000") {
		t.Errorf("ended %v", doing.ended)
	}
	if _, ok := d.Legs(t.Context(), "Seat 3"); !ok {
		t.Error("no station Seat 3")
	}
	var s message.Station
	var q probeQuestion
	if err := d.ask(t.Context(), "Seat 3", &q); err != nil {
		t.Fatal(err)
	}
	s = q.answer.Station
	if s.Address != "192.168.1.20:50003" {
		t.Errorf("Seat 3 is %s", s.Address)
	}
}

// The maneuver may be found from what is flown: chosen at any time, told of the station, and remembered. The
// gates then let any of the maneuvers begin.
func TestAutoIsChosen(t *testing.T) {
	at := netip.MustParseAddrPort("192.168.1.20:50000")
	d, doing := newDesk(t)
	s := d.Seat(at)
	doing.seats[at] = s
	of := func() message.Station { return s.(*seat).session.Info(0) }
	if of().Auto {
		t.Error("it begins with auto")
	}
	choose := func(c maneuver.Choice) {
		t.Helper()
		if err := d.Do(t.Context(), commanded(of().Name, command.Choose{Choice: c})); err != nil {
			t.Fatal(err)
		}
	}
	choose(maneuver.Choice{Maneuver: coach.AutoManeuver, Aircraft: "turboprop-trainer"})
	if !of().Auto || s.(*seat).choice.Maneuver != coach.AutoManeuver {
		t.Errorf("chosen, and it is %+v", of())
	}
	if n := d.named(at); n.Maneuver != coach.AutoManeuver || n.Aircraft != "turboprop-trainer" {
		t.Errorf("remembered is %+v", n)
	}
	if d.Cards().Auto.Name != coach.AutoManeuver {
		t.Error("it is not offered")
	}
	choose(maneuver.Choice{Maneuver: "lazy-eight", Aircraft: "turboprop-trainer"})
	if of().Auto || of().Maneuver != "lazy-eight" {
		t.Errorf("a maneuver is chosen, and it is %+v", of())
	}
	if err := d.Do(t.Context(), commanded(of().Name, command.Choose{Choice: maneuver.Choice{Maneuver: coach.AutoManeuver, Aircraft: "none"}})); err == nil || of().Auto {
		t.Errorf("with an aircraft that is not there: %v", err)
	}
}

// What was last chosen at a station holds when its simulator comes back, from another port too; a flag's
// word goes before it, and cards that are gone are no choice.
func TestChoiceIsRemembered(t *testing.T) {
	at := netip.MustParseAddrPort
	d, doing := newDesk(t, Named{Address: at("192.168.1.20:0"), Name: "Seat 3"})
	for _, address := range []string{"192.168.1.20:50000", "192.168.1.21:50000"} {
		s := d.Seat(at(address))
		doing.seats[at(address)] = s
		if err := d.Do(t.Context(), commanded(s.(*seat).name, command.Choose{Choice: maneuver.Choice{Maneuver: "lazy-eight", Standard: "check", Aircraft: "light-single"}})); err != nil {
			t.Fatal(err)
		}
	}
	for _, address := range []string{"192.168.1.20:50009", "192.168.1.21:50009"} {
		if n := d.named(at(address)); n.Maneuver != "lazy-eight" || n.Standard != "check" || n.Aircraft != "light-single" {
			t.Errorf("%s comes back to %+v", address, n)
		}
	}
	if n := d.named(at("192.168.1.22:50000")); n.Maneuver != "wing-over" {
		t.Errorf("another begins with %s", n.Maneuver)
	}
	seat3, ok := d.cfg.Stations.Find("Seat 3", "", nil)
	if !ok {
		t.Fatal("the station has no id")
	}
	if err := d.cfg.Book.RememberStation(who.Owner(), seat3.ID, maneuver.Choice{Maneuver: "gone"}); err != nil {
		t.Fatal(err)
	}
	if n := d.named(at("192.168.1.20:50000")); n.Maneuver != "wing-over" {
		t.Errorf("a card that is gone: %s", n.Maneuver)
	}
	d.cfg.Forget = true
	if n := d.named(at("192.168.1.21:50000")); n.Maneuver != "wing-over" {
		t.Errorf("told otherwise: %s", n.Maneuver)
	}
}

// A student is one, however the name is written: on the panel, in the configuration, and in the logbook.
func TestStudentSpelled(t *testing.T) {
	d, doer := newDesk(t, Named{Address: netip.MustParseAddrPort("192.0.2.1:0"), Name: "Seat 1", Student: "ADA  example"})
	id, err := d.cfg.Book.NewID(time.Unix(1e9, 0), "x")
	if err != nil {
		t.Fatal(err)
	}
	if err := d.cfg.Book.Begin(logbook.Entry{ID: id, Student: logbook.Student{Name: "Ada Example"}, Began: time.Unix(1e9, 0)}); err != nil {
		t.Fatal(err)
	}
	at := netip.MustParseAddrPort("192.0.2.2:1")
	s := d.Seat(at).(*seat)
	doer.seats[at] = s
	for said, want := range map[string]string{"Bo  Example": "Bo Example", " ada\u00a0EXAMPLE ": "Ada Example", "": ""} {
		if err := d.Do(t.Context(), commanded(s.name, command.Student{Name: said})); err != nil || s.opening.Student != want {
			t.Errorf("%q: kept as %q, %v; want %q", said, s.opening.Student, err, want)
		}
	}
	for _, said := range []string{"Ada\x1b[31m", "Ada\u009b", "\u2066Ada\u2069", strings.Repeat("x", 81)} {
		if err := d.Do(t.Context(), commanded(s.name, command.Student{Name: said})); err == nil || s.opening.Student == said {
			t.Errorf("%q is taken", said)
		}
	}
}
