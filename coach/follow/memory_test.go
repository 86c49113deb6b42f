package follow_test

import (
	"runtime"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
)

// mostMemory is what a station may take at any time, bytes: hundreds of them fly on one machine. Each card takes about
// 5 KiB of it.
const mostMemory = 544 << 10

// heap returns the bytes that are reachable.
func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// A held is what a station held at three times of its flight, bytes.
type held struct{ empty, most, after uint64 }

// holding flies a maneuver followed by every card at once. It looks once a second, and whenever an event is
// reported: the most is held late in a leg that all judges follow, or when it has just been recorded.
func holding(tb testing.TB, plans []*plan.Plan, f trainer.Flight) (h held) {
	tb.Helper()
	f.Airplane, f.Seed, f.Direction = "light-single", 4, "both"
	pilot, err := rehearsed.NewSequence(f)
	if err != nil {
		tb.Fatal(err)
	}
	for range 2 { // what pools hold goes with the second
		runtime.GC()
	}
	before := heap()
	a := follow.NewAuto(judge.Options{Explain: cause.Explainer{}}, plans, 0)
	h.empty = heap() - before
	var s stream.Sample
	legs := 0
	for n := 0; pilot.Step(1.0/60, &s); n++ {
		a.Step(&s)
		events := a.Take()
		if n%60 == 0 || len(events) > 0 {
			h.most = max(h.most, heap()-before)
		}
		legs += legsIn(events)
	}
	a.Break(phrase.Plain("the flight is over"))
	h.most = max(h.most, heap()-before)
	legs += legsIn(a.Take())
	for range 2 { // what was taken is let go with the next
		a.Step(&s)
		a.Take()
	}
	h.after = heap() - before
	runtime.KeepAlive(a)
	if legs < 2 {
		tb.Fatalf("%s: %d legs; the flight must have two at least", f.Maneuver, legs)
	}
	return h
}

func legsIn(events []coach.Event) (n int) {
	for _, e := range events {
		if _, ok := e.(*coach.Leg); ok {
			n++
		}
	}
	return n
}

// TestMemoryOfAStation: every card at once over one tracker, whatever is flown. Where two of the cards are alike every
// leg stays undecided, so that the records of all judges wait for the next leg while that is flown.
func TestMemoryOfAStation(t *testing.T) {
	plans := plansFor(t, "light-single")
	named := func(name string) int {
		return slices.IndexFunc(plans, func(p *plan.Plan) bool { return p.Card.Name == name })
	}
	alike := slices.Clone(plans)
	alike[named("lazy-eight")] = plans[named("wing-over")]
	for _, c := range []struct {
		name, maneuver string
		plans          []*plan.Plan
	}{
		{"wing-overs", "wing-over", plans},
		{"chandelles", "chandelle-traditional", plans},
		{"lazy eights", "lazy-eight", plans},
		{"steep turns", "steep-turn", plans},
		{"undecided wing-overs", "wing-over", alike},
	} {
		h := holding(t, c.plans, trainer.Flight{Maneuver: c.maneuver})
		t.Logf("%s: %d KiB when made, %d KiB at most, %d KiB after the flight",
			c.name, h.empty>>10, h.most>>10, h.after>>10)
		if h.most > mostMemory {
			t.Errorf("%s: a station takes up to %d bytes; must be at most %d", c.name, h.most, mostMemory)
		}
	}
}

// BenchmarkAutoStation reports what a station holds, in bytes: when it is made, at the worst moment of a flight of
// wing-overs, and after it. Run:
//
//	go test -run xxx -bench AutoStation -benchtime 1x ./coach/follow
func BenchmarkAutoStation(b *testing.B) {
	plans := plansFor(b, "light-single")
	var h held
	for b.Loop() {
		h = holding(b, plans, trainer.Flight{Maneuver: "wing-over"})
	}
	b.ReportMetric(float64(h.empty), "B-made")
	b.ReportMetric(float64(h.most), "B-most")
	b.ReportMetric(float64(h.after), "B-after")
	b.ReportMetric(0, "ns/op")
}
