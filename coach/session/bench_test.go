package session_test

import (
	"testing"

	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/pipeline"
)

// BenchmarkSample is decode, time base, deriving, tracking and grading of one sample of a real
// stream, events and all; the figure is per datagram. Run:
//
//	go test -bench Sample -benchmem ./coach/session
func BenchmarkSample(b *testing.B) {
	const name = "wing-over-turboprop-a-turbulence-good"
	w := loadTruth(b)[name]
	list := datagrams(b, name)
	opt := options(b, w.Maneuver, w.Aircraft, nil)
	s := session.New(opt)
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		if n == len(list) {
			b.StopTimer() // a session is set up once
			s = session.New(opt)
			n = 0
			b.StartTimer()
		}
		s.Feed(list[n].Payload, list[n].Seconds())
		n++
	}
}

// BenchmarkAutoSample is the same with no maneuver chosen: all cards are followed at once.
func BenchmarkAutoSample(b *testing.B) {
	const name = "wing-over-turboprop-a-turbulence-good"
	w := loadTruth(b)[name]
	list := datagrams(b, name)
	lib, err := shipped()
	if err != nil {
		b.Fatal(err)
	}
	opt := options(b, w.Maneuver, w.Aircraft, nil)
	for _, c := range lib.Distinct() {
		opt.Auto = append(opt.Auto, plan.New(c, models[w.Aircraft]))
	}
	opt.Coach.Plan = opt.Auto[0]
	s := session.New(opt)
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		if n == len(list) {
			b.StopTimer()
			s = session.New(opt)
			n = 0
			b.StartTimer()
		}
		s.Feed(list[n].Payload, list[n].Seconds())
		n++
	}
}

// BenchmarkManyStations is BenchmarkSample with hundreds of stations that take turns, as in a server: what a station
// touches has left the near caches when its next sample comes. Each is at another moment of the flight.
func BenchmarkManyStations(b *testing.B) {
	const (
		name     = "wing-over-turboprop-a-turbulence-good"
		stations = 300
	)
	w := loadTruth(b)[name]
	list := datagrams(b, name)
	opt := options(b, w.Maneuver, w.Aircraft, nil)
	all, at := make([]*session.Session, stations), make([]int, stations)
	feed := func(i int) {
		d := &list[at[i]%len(list)]
		all[i].Feed(d.Payload, d.Seconds())
		at[i]++
	}
	for i := range all {
		all[i] = session.New(opt)
		for range 1 + i*(len(list)-1)/stations {
			feed(i)
		}
	}
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		feed(n % stations)
		n++
	}
}

// BenchmarkDecode is the same without the coach.
func BenchmarkDecode(b *testing.B) {
	list := datagrams(b, "wing-over-turboprop-a-turbulence-good")
	opt := pipeline.Options{}
	s := pipeline.New(opt)
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		if n == len(list) {
			b.StopTimer()
			s = pipeline.New(opt)
			n = 0
			b.StartTimer()
		}
		s.Feed(list[n].Payload, list[n].Seconds())
		n++
	}
}

// TestSteadyFlightDoesNotAllocate holds decode, track and grade to no allocation a sample,
// in level flight and within a leg; what is allocated belongs to events, which are few.
func TestSteadyFlightDoesNotAllocate(t *testing.T) {
	const name = "wing-over-turboprop-a-turbulence-good"
	w := loadTruth(t)[name]
	list := datagrams(t, name)
	for what, from := range map[string]int{"level": 700, "in a leg": 60 * 28} {
		t.Run(what, func(t *testing.T) {
			s := session.New(options(t, w.Maneuver, w.Aircraft, nil))
			for _, d := range list[:from] {
				s.Feed(d.Payload, d.Seconds())
			}
			// The best of several stretches: one with an event in it does allocate.
			best := 1e9
			for n := from; n+31 < from+400; n += 31 {
				i := n
				allocs := testing.AllocsPerRun(30, func() {
					s.Feed(list[i].Payload, list[i].Seconds())
					i++
				})
				best = min(best, allocs)
			}
			if best != 0 {
				t.Errorf("a sample allocates %g times", best)
			}
		})
	}
}
