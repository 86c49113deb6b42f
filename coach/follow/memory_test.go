package follow_test

import (
	"runtime"
	"testing"

	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
)

// What a station may take, bytes: hundreds of them fly on one machine. In a leg each of the judges has a trace and its
// checks.
const (
	mostMemory = 512 << 10
	mostInALeg = 832 << 10
)

func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// TestMemoryOfAStation: every card at once over one tracker, after some legs.
func TestMemoryOfAStation(t *testing.T) {
	plans := plansFor(t, "light-single")
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: "light-single",
		Seed: 4})
	if err != nil {
		t.Fatal(err)
	}
	before := heap()
	a := follow.NewAuto(judge.Options{}, plans, 0)
	empty := heap() - before
	var s stream.Sample
	leg := uint64(0)
	for n := 0; pilot.Step(1.0/60, &s); n++ {
		a.Step(&s)
		a.Take()
		if n%300 == 0 && a.Frame().State == "leg" {
			leg = max(leg, heap()-before)
		}
	}
	a.Break(phrase.Plain("the flight is over"))
	for range 2 { // what was taken is let go with the next
		a.Step(&s)
		a.Take()
	}
	after := heap() - before
	t.Logf("%d judges: %d KiB at first, %d KiB in a leg, %d KiB after the flight",
		len(plans), empty>>10, leg>>10, after>>10)
	if empty > mostMemory || after > mostMemory {
		t.Errorf("a station takes %d bytes, and %d after a flight; must be at most %d", empty, after, mostMemory)
	}
	if leg == 0 || leg > mostInALeg {
		t.Errorf("in a leg it takes %d bytes; must be at most %d", leg, mostInALeg)
	}
	runtime.KeepAlive(a)
}
