package desk

import (
	"context"
	"net/netip"
	"strings"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/stations"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/stream/ingest"
	"halfturn/web/desk/identity"
	"halfturn/web/hub"
)

// A doer runs in the caller's goroutine, for tests that are in one; those of life_test.go run the real one.
type doer struct {
	handlers map[netip.AddrPort]ingest.Handler
	ended    []netip.AddrPort

	meanwhile func() // called while a station ends; may be nil
}

func (*doer) Addresses() []netip.AddrPort { return nil }

func (d *doer) Send(_ context.Context, a netip.AddrPort, r ingest.Request) error {
	s, ok := d.handlers[a]
	if !ok {
		return ingest.ErrNotThere
	}
	s.Take(r)
	return nil
}

func (d *doer) End(_ context.Context, a netip.AddrPort, r ingest.Request) error {
	s, ok := d.handlers[a]
	if !ok {
		return ingest.ErrNotThere
	}
	if s.Take(r) {
		d.ended = append(d.ended, a)
		delete(d.handlers, a)
		s.End()
		if d.meanwhile != nil {
			d.meanwhile()
		}
	}
	return nil
}

func newDesk(t *testing.T, named ...identity.Sender) (*Desk, *doer) {
	t.Helper()
	return changedDesk(t, nil, named...)
}

// recordingDesk is a desk that records and enters what is flown in the logbook.
func recordingDesk(t *testing.T, change ...func(*Config)) (*Desk, *doer) {
	t.Helper()
	return changedDesk(t, func(cfg *Config) {
		for _, c := range change {
			c(cfg)
		}
		cfg.Recording = &Recording{}
		cfg.Writer = queue.New(cfg.Book, func(err error) { t.Error(err) })
		t.Cleanup(cfg.Writer.Close)
	})
}

// changedDesk is a desk whose configuration is changed first, unless change is nil.
func changedDesk(t *testing.T, change func(*Config), named ...identity.Sender) (*Desk, *doer) {
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
	for i := range named {
		if named[i].Choice.Maneuver == "" {
			named[i].Choice.Maneuver = "wing-over"
		}
	}
	cfg := Config{
		Library: lib,
		Choice:  maneuver.Choice{Maneuver: "wing-over"},
		Named:   named,
		Output:  hub.New("0", zerolog.Nop()),
		Book:    book,
		Version: "1",
		Metrics: metrics,
		Log:     zerolog.Nop(),
	}
	if change != nil {
		change(&cfg)
	}
	d, err := New(cfg, prometheus.NewRegistry())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.practices.Wait)
	doing := &doer{handlers: map[netip.AddrPort]ingest.Handler{}}
	d.Attach(doing)
	return d, doing
}

// A name belongs to an address: with its port before without, one name for each who sends now, and
// taken from a silent one, as after a restart of the simulator.
func TestNames(t *testing.T) {
	at := netip.MustParseAddrPort
	d, doing := newDesk(
		t,
		identity.Sender{Address: at("192.168.1.20:0"), Name: "Seat 3"},
		identity.Sender{Address: at("192.168.1.20:49001"), Name: "Seat 4"},
	)
	now := time.Now()
	sit := func(address string) string {
		s := d.Station(at(address))
		doing.handlers[at(address)] = s
		s.Datagram([]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0}`), now)
		return s.(*station).practice.Info().Name
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
	old := doing.handlers[at("192.168.1.20:50000")].(*station)
	old.hear(now.Add(-10 * time.Second)) // that simulator went silent, and comes back
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
	s := d.Station(at)
	doing.handlers[at] = s
	of := func() message.Station { return s.(*station).practice.Info() }
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
	if !of().Auto {
		t.Errorf("chosen, and it is %+v", of())
	}
	if n := d.directory.Of(at); n.Choice.Maneuver != coach.AutoManeuver || n.Choice.Aircraft != "turboprop-trainer" {
		t.Errorf("remembered is %+v", n)
	}
	if d.Cards().Auto.Name != coach.AutoManeuver {
		t.Error("it is not offered")
	}
	choose(maneuver.Choice{Maneuver: "lazy-eight", Aircraft: "turboprop-trainer"})
	if of().Auto || of().Maneuver != "lazy-eight" {
		t.Errorf("a maneuver is chosen, and it is %+v", of())
	}
	none := command.Choose{Choice: maneuver.Choice{Maneuver: coach.AutoManeuver, Aircraft: "none"}}
	if err := d.Do(t.Context(), commanded(of().Name, none)); err == nil || of().Auto {
		t.Errorf("with an aircraft that is not there: %v", err)
	}
}

// What was last chosen at a station holds when its simulator comes back, from another port too; a flag's
// word goes before it, and cards that are gone are no choice.
func TestChoiceIsRemembered(t *testing.T) {
	at := netip.MustParseAddrPort
	register := new(stations.Register)
	d, doing := changedDesk(t, func(cfg *Config) { cfg.Stations = register },
		identity.Sender{Address: at("192.168.1.20:0"), Name: "Seat 3"})
	for _, address := range []string{"192.168.1.20:50000", "192.168.1.21:50000"} {
		s := d.Station(at(address))
		doing.handlers[at(address)] = s
		choice := maneuver.Choice{Maneuver: "lazy-eight", Standard: "check", Aircraft: "light-single"}
		err := d.Do(t.Context(), commanded(s.(*station).name, command.Choose{Choice: choice}))
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, address := range []string{"192.168.1.20:50009", "192.168.1.21:50009"} {
		if n := d.directory.Of(at(address)); n.Choice.Maneuver != "lazy-eight" || n.Choice.Standard != "check" ||
			n.Choice.Aircraft != "light-single" {
			t.Errorf("%s comes back to %+v", address, n)
		}
	}
	if n := d.directory.Of(at("192.168.1.22:50000")); n.Choice.Maneuver != "wing-over" {
		t.Errorf("another begins with %s", n.Choice.Maneuver)
	}
	seat3, ok := register.Find("Seat 3", "", nil)
	if !ok {
		t.Fatal("the station has no id")
	}
	if err := d.cfg.Book.RememberStation(who.Owner(), seat3.ID, maneuver.Choice{Maneuver: "gone"}); err != nil {
		t.Fatal(err)
	}
	if n := d.directory.Of(at("192.168.1.20:50000")); n.Choice.Maneuver != "wing-over" {
		t.Errorf("a card that is gone: %s", n.Choice.Maneuver)
	}
	forgetful, _ := changedDesk(t, func(cfg *Config) {
		cfg.Book, cfg.Stations, cfg.Forget = d.cfg.Book, register, true
	})
	if n := forgetful.directory.Of(at("192.168.1.21:50000")); n.Choice.Maneuver != "wing-over" {
		t.Errorf("told otherwise: %s", n.Choice.Maneuver)
	}
}

// A student is one, however the name is written: on the panel, in the configuration, and in the logbook.
func TestStudentSpelled(t *testing.T) {
	d, doer := newDesk(
		t,
		identity.Sender{Address: netip.MustParseAddrPort("192.0.2.1:0"), Name: "Seat 1", Student: "ADA  example"},
	)
	id, err := d.cfg.Book.NewID(time.Unix(1e9, 0), "x")
	if err != nil {
		t.Fatal(err)
	}
	entry := logbook.Entry{ID: id, Student: logbook.Student{Name: "Ada Example"}, Began: time.Unix(1e9, 0)}
	if err := d.cfg.Book.Begin(entry); err != nil {
		t.Fatal(err)
	}
	at := netip.MustParseAddrPort("192.0.2.2:1")
	s := d.Station(at).(*station)
	doer.handlers[at] = s
	for said, want := range map[string]string{
		"Bo  Example":        "Bo Example",
		" ada\u00a0EXAMPLE ": "Ada Example",
		"":                   "",
	} {
		if err := d.Do(t.Context(), commanded(s.name, command.Student{Name: said})); err != nil ||
			s.practice.Info().Student != want {
			t.Errorf("%q: kept as %q, %v; want %q", said, s.practice.Info().Student, err, want)
		}
	}
	for _, said := range []string{"Ada\x1b[31m", "Ada\u009b", "\u2066Ada\u2069", strings.Repeat("x", 81)} {
		if err := d.Do(t.Context(), commanded(s.name, command.Student{Name: said})); err == nil ||
			s.practice.Info().Student == said {
			t.Errorf("%q is taken", said)
		}
	}
}
