package session_test

import (
	"reflect"
	"runtime"
	"testing"

	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// heap returns the bytes that are reachable.
func heap() int {
	for range 2 { // what pools hold goes with the second
		runtime.GC()
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int(m.HeapAlloc)
}

// heldByLegs flies wing-overs at 30 samples a second and tells what the session holds when it is made, before the first
// leg, when its past is full, and after all legs, bytes.
func heldByLegs(tb testing.TB, legs int) (made, fresh, after int) {
	tb.Helper()
	pilot, err := trainer.New(trainer.Flight{Seed: 7, Latitude: 47, Longitude: 11, Legs: legs})
	if err != nil {
		tb.Fatal(err)
	}
	e, err := encode.New("json")
	if err != nil {
		tb.Fatal(err)
	}
	opt := trainerOptions(tb)
	var datagram []byte
	var sample stream.Sample
	before := heap()
	s := session.New(opt)
	made = heap() - before
	for i := 0; pilot.Step(1.0/60, &sample); i++ {
		if i%2 != 0 {
			continue
		}
		datagram = e.Append(datagram[:0], &sample)
		s.Feed(datagram, 1.7e9+sample.Value(stream.Time))
		if fresh == 0 && s.Legs() == 1 {
			fresh = heap() - before
		}
	}
	after = heap() - before
	if n := s.Legs(); n != legs {
		tb.Fatalf("%d legs were flown; must be %d", n, legs)
	}
	runtime.KeepAlive(s)
	return made, fresh, after
}

// BenchmarkHeld reports what a session holds of a station, in bytes: when it is made, after its first leg, and after
// fifty. Run:
//
//	go test -run xxx -bench Held -benchtime 1x ./coach/session
func BenchmarkHeld(b *testing.B) {
	var made, fresh, after int
	for b.Loop() {
		made, fresh, after = heldByLegs(b, 50)
	}
	b.ReportMetric(float64(made), "B-made")
	b.ReportMetric(float64(fresh), "B-leg")
	b.ReportMetric(float64(after), "B-50-legs")
	b.ReportMetric(0, "ns/op")
}

// mostOfALeg is what a leg that is over may take in a session, bytes: a school's stations fly fifty an hour each.
const mostOfALeg = 4 << 10

// TestMemoryOfLegs: legs that are over take little.
func TestMemoryOfLegs(t *testing.T) {
	const legs = 13 // of one the series is not over at the end
	_, fresh, after := heldByLegs(t, legs)
	t.Logf("%d bytes after the first leg, %d after %d", fresh, after, legs)
	if each := (after - fresh) / (legs - 1); each > mostOfALeg {
		t.Errorf("each leg takes %d bytes; must be at most %d", each, mostOfALeg)
	}
}

// TestReportIsAsPublished: what the session keeps of the series of recorded flights is to the bit what its listeners
// got, and what was flown at a moment stays as it was.
func TestReportIsAsPublished(t *testing.T) {
	n := 0
	for name, w := range loadTruth(t) {
		l := &listener{rate: 2.5}
		s := session.New(options(t, w.Maneuver, w.Aircraft, l))
		for _, d := range datagrams(t, name) {
			s.Feed(d.Payload, d.Seconds())
		}
		flown := s.Flown()
		before := flown.Report()
		s.End(phrase.Read("the recording ended"))
		got := s.Report().Series
		if len(got) != len(l.series) {
			t.Errorf("%s: %d series in the report, %d published", name, len(got), len(l.series))
			continue
		}
		for i := range got {
			n++
			if !reflect.DeepEqual(&got[i], l.series[i]) {
				t.Errorf("%s: series %d of the report is %+v; published was %+v", name, i+1, got[i], *l.series[i])
			}
		}
		if again := flown.Report(); !reflect.DeepEqual(again, before) {
			t.Errorf("%s: what was flown at a moment is %+v later; was %+v", name, again, before)
		}
	}
	if n == 0 {
		t.Error("no series was flown")
	}
}
