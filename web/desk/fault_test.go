package desk

import (
	"errors"
	"io"
	"net"
	"net/netip"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"
	"github.com/prometheus/common/expfmt"
	"github.com/rs/zerolog"

	"halfturn/coach/archive/play"
	"halfturn/coach/logbook"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/contain"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/record"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
	"halfturn/web/hub"
)

// A faulty output panics at some messages of a station, as a fault behind the sessions would.
type faulty struct {
	session.Output
	mu      sync.Mutex
	station string // "" is none
	at      func(body message.Body, legs int) bool
	legs    map[string]int // that ended, by station
	turning map[string]bool
}

func (f *faulty) Event(m message.Message) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if m.Station == f.station && f.at(m.Body, f.legs[m.Station]) {
		panic("the output failed")
	}
	switch b := m.Body.(type) {
	case message.Leg:
		f.legs[m.Station]++
		f.turning[m.Station] = false
	case message.Phase:
		f.turning[m.Station] = b.Direction != ""
	}
	f.Output.Event(m)
}

// inLeg reports whether a station flies a leg, after one that it has flown.
func (f *faulty) inLeg(station string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.legs[station] == 1 && f.turning[station]
}

func (f *faulty) arm(station string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.station = station
}

// A hand sends a flight to a desk, and waits for it to be taken.
type hand struct {
	*net.UDPConn
	desk    *Desk
	station string
	sent    *int
}

// fly sends datagrams.
func (h *hand) fly(t *testing.T, datagrams [][]byte) {
	t.Helper()
	for i, b := range datagrams {
		if _, err := h.Write(b); err != nil {
			t.Fatal(err)
		}
		if *h.sent++; i%50 == 49 || i == len(datagrams)-1 {
			until(t, func() bool { return h.taken() >= *h.sent }, "not all datagrams were taken")
		}
	}
}

// taken is how many datagrams were read or dropped after a fault.
func (h *hand) taken() int {
	m := h.desk.cfg.Metrics
	return int(testutil.ToFloat64(m.Datagrams("JSON lines")) + testutil.ToFloat64(m.Datagrams("")) +
		testutil.ToFloat64(m.Dropped("fault")))
}

func until(t *testing.T, is func() bool, words string) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !is(); <-time.After(2 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal(words)
		}
	}
}

// Two wing-overs, one to each side, as JSON lines.
func twoLegs(t *testing.T) (datagrams [][]byte) {
	t.Helper()
	encoder, err := encode.New("json")
	if err != nil {
		t.Fatal(err)
	}
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both"})
	if err != nil {
		t.Fatal(err)
	}
	var sample stream.Sample
	for more := true; more; {
		more = pilot.Step(0.1, &sample)
		datagrams = append(datagrams, encoder.Append(nil, &sample))
	}
	return datagrams
}

// A faultyDesk is a desk with sockets whose output can fail, and what its faults said.
type faultyDesk struct {
	*Desk
	output *faulty
	hub    *hub.Hub
	to     netip.AddrPort
	sent   int

	mu   sync.Mutex
	told []error
}

func newFaultyDesk(t *testing.T, idle time.Duration, at func(message.Body, int) bool) *faultyDesk {
	t.Helper()
	f := &faultyDesk{hub: hub.New("0", zerolog.Nop())}
	f.output = &faulty{Output: f.hub, at: at, legs: map[string]int{}, turning: map[string]bool{}}
	faults := contain.New(func(err error) {
		f.mu.Lock()
		defer f.mu.Unlock()
		f.told = append(f.told, err)
	})
	f.Desk, _ = recordingDesk(t, func(cfg *Config) { cfg.Output, cfg.Faults = f.output, faults })
	l, err := ingest.Listen(t.Context(), ingest.Config{
		Addresses: []string{"127.0.0.1:0"}, Idle: idle, Unproven: idle, Tick: 20 * time.Millisecond,
		Metrics: f.cfg.Metrics, Faults: faults, Warn: func(err error) { t.Error(err) },
	}, f.Station)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	f.Attach(l)
	f.to = l.Addresses()[0]
	return f
}

func (f *faultyDesk) hand(t *testing.T) *hand {
	t.Helper()
	conn, err := net.DialUDP("udp", nil, net.UDPAddrFromAddrPort(f.to))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	return &hand{conn, f.Desk, conn.LocalAddr().String(), &f.sent}
}

// info is what the pages show of a station.
func (f *faultyDesk) info(station string) (info message.Station) {
	for _, s := range f.hub.Stations() {
		if s.Name == station {
			return s
		}
	}
	return info
}

// A fault behind one station, while a datagram is coached, when its silence is noticed, or at its end, ends the session
// there: its viewers are told, what it flew is kept, listed and can be read, and its next datagram begins another one.
// The station beside it flies on.
func TestFaultEndsOneStation(t *testing.T) {
	const idle = 4 * time.Second // longer than the silence that is told, and than a busy machine keeps a sender waiting
	for _, c := range []struct {
		name string
		legs int // before the fault
		cut  bool
		at   func(body message.Body, legs int) bool
	}{
		{"at a datagram", 1, false, func(b message.Body, legs int) bool {
			p, is := b.(message.Phase)
			return is && p.Direction != "" && legs == 1
		}},
		{"at a tick", 2, false, func(b message.Body, _ int) bool {
			s, is := b.(*message.Station)
			return is && s.Link == pipeline.LinkSilent
		}},
		{"at the end", 1, true, func(b message.Body, legs int) bool {
			_, is := b.(message.Series)
			return is && legs == 1
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			f := newFaultyDesk(t, idle, c.at)
			flight := twoLegs(t)
			one, other := f.hand(t), f.hand(t)
			f.output.arm(one.station)
			one.fly(t, flight[:20])
			first := f.info(one.station).Session
			over := func() bool { return f.faults() > 0 || c.cut && f.output.inLeg(one.station) }
			for rest := flight[20:]; len(rest) > 0 && !over(); {
				n := min(10, len(rest))
				one.fly(t, rest[:n])
				rest = rest[n:]
			}
			other.fly(t, flight)
			ended := func() bool {
				known, err := f.cfg.Book.Session(t.Context(), first)
				return err == nil && known.Ended != ""
			}
			until(t, ended, "the session is not over in the logbook")
			f.output.arm("")
			// What was under way when the fault came may have begun the session that follows.
			info := f.info(one.station)
			if info.Link != message.LinkGone && info.Session == first || !info.Trouble.Is(phrase.FaultBefore) {
				t.Errorf("its viewers are told %+v", info)
			}
			f.isKept(t, first, c.legs)
			f.saysOnce(t)
			one.fly(t, flight[:20])
			until(t, func() bool { return f.info(one.station).Session != "" }, "no session follows")
			if info := f.info(one.station); info.Session == first || !info.Trouble.Is(phrase.FaultBefore) {
				t.Errorf("then the station says %+v", info)
			}
			f.isKept(t, f.sessionOf(t, other.station), 2)
		})
	}
}

// sessionOf returns the first session of a station, once it is over.
func (f *faultyDesk) sessionOf(t *testing.T, station string) (id string) {
	t.Helper()
	its := func(s logbook.SessionRow) bool { return s.Station == station && s.Ended != "" }
	until(t, func() bool {
		list, err := f.cfg.Book.List(t.Context(), logbook.Filter{})
		i := slices.IndexFunc(list.Sessions, its)
		if err == nil && i >= 0 {
			id = list.Sessions[i].ID
		}
		return id != ""
	}, "the other station has no session that is over")
	return id
}

// isKept checks that a session is in the logbook with its legs, and that its recording is whole.
func (f *faultyDesk) isKept(t *testing.T, id string, legs int) {
	t.Helper()
	known, err := f.cfg.Book.Session(t.Context(), id)
	if err != nil || known.Legs < legs {
		t.Errorf("the logbook has %+v, %v; must be %d legs", known, err, legs)
	}
	dir := filepath.Join(f.cfg.Book.Dir(), id)
	if record.Unfinished(dir) {
		t.Error("the next start would play it again, and fail again")
	}
	r, err := play.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	player, err := r.Play(t.Context(), play.Following{Options: f.Options(), Plans: f.Plans})
	if err != nil {
		t.Fatal(err)
	}
	defer player.Close()
	var flight *play.Flight
	for {
		if _, err = player.Next(); err != nil {
			break
		}
		if flight, _, err = player.Feed(); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(player.End()); err != nil {
		t.Error(err)
	}
	if !errors.Is(err, io.EOF) || flight == nil {
		t.Fatalf("its recording cannot be graded, and ends with %v", err)
	}
	if n := flight.Session.Legs(); n != known.Legs {
		t.Errorf("graded again its recording has %d legs, the logbook %d", n, known.Legs)
	}
}

// faults is how many were told.
func (f *faultyDesk) faults() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return len(f.told)
}

// saysOnce checks that a fault was told once, with its stack, and counted.
func (f *faultyDesk) saysOnce(t *testing.T) {
	t.Helper()
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.told) == 0 {
		t.Fatal("nothing was told")
	}
	for i, err := range f.told {
		if !strings.Contains(err.Error(), "the output failed") || !strings.Contains(err.Error(), "faulty).Event") {
			t.Errorf("it told %v", err)
		}
		if i > 0 && err.(*contain.Fault).Of == f.told[0].(*contain.Fault).Of {
			t.Errorf("the fault was told twice")
		}
	}
	counted, err := testutil.CollectAndFormat(f.cfg.Faults.Collector(), expfmt.TypeTextPlain,
		"halfturn_faults_total")
	if n := strings.Count(string(counted), "} ") - strings.Count(string(counted), "} 0\n"); n != 1 || err != nil {
		t.Errorf("faults are counted for %d parts, %v:\n%s", n, err, counted)
	}
}
