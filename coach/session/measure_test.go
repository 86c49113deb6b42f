package session_test

import (
	"math"
	"slices"
	"testing"

	"halfturn/coach/measure"
	"halfturn/stream"
	"halfturn/stream/pipeline"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

func measured(t *testing.T, name string) *measure.Measurer {
	t.Helper()
	s := pipeline.New(pipeline.Options{})
	m := measure.New()
	for _, d := range datagrams(t, name) {
		sample, r := s.Feed(d.Payload, d.Seconds())
		switch r.Outcome {
		case pipeline.Jumped:
			m.Break()
		case pipeline.Accepted:
			m.Step(sample)
		}
	}
	m.Break()
	return m
}

// TestMeasureRecordings: the stall speed from the one recorded stall, 84 kt as measured in the
// simulation at 1 g, clean; none from flights that did not stall, slow as some were. The steady
// speed is the entry speed of the flight, a few knots of drift included; where the card asks for none, the one that
// the simulation had at the first entry.
func TestMeasureRecordings(t *testing.T) {
	entries := map[string]float64{
		"turboprop-a": 220,
		"turboprop-b": 155,
		"jet":         220,
		"single-a":    105,
		"single-b":    118,
		"sim-single":  100,
	}
	const stalled = "chandelle-traditional-turboprop-a-stalled"
	for name, w := range loadTruth(t) {
		m := measured(t, name)
		stall, _, reason := m.Stall()
		if name == stalled && (reason != "" || math.Abs(stall-84) > 2) {
			t.Errorf("%s: stall at %.1f kt, %s; want 84", name, stall, reason)
		}
		if name != stalled && reason == "" {
			t.Errorf("%s: a stall at %.1f kt in a flight without one", name, stall)
		}
		want := entries[w.Aircraft]
		if w.Maneuver == "chandelle-traditional" {
			want = 200
		}
		if slices.Contains([]string{"turn-pattern", "steep-spiral", "eights-on-pylons"}, w.Maneuver) {
			want = w.Legs[0].Entry["airspeed"]
		}
		steady, _ := m.Steady()
		entry, ok := measure.Mean(steady, stream.Airspeed)
		if !ok && name != "wing-over-turboprop-a-turbulence-good" { // no calm stretch in it
			t.Errorf("%s: no steady flight", name)
		}
		if ok && math.Abs(entry-want) > 4 {
			t.Errorf("%s: steady at %.1f kt, want %g", name, entry, want)
		}
	}
}

// TestMeasureTrainer: the built-in airplanes' entry speed and throttle, and no stall.
func TestMeasureTrainer(t *testing.T) {
	for _, name := range airplane.Names() {
		a, err := airplane.Named(name)
		if err != nil {
			t.Fatal(err)
		}
		pilot, err := trainer.New(trainer.Flight{Direction: "both", Airplane: name, Seed: 5})
		if err != nil {
			t.Fatal(err)
		}
		m := measure.New()
		var s stream.Sample
		for pilot.Step(1.0/60, &s) {
			m.Step(&s)
		}
		m.Break()
		steady, _ := m.Steady()
		entry, _ := measure.Mean(steady, stream.Airspeed)
		throttle, ok := measure.Mean(steady, stream.Throttle)
		if math.Abs(entry-a.EntryFor("wing-over")) > 2 || !ok || math.Abs(throttle-a.Throttle) > 0.03 {
			t.Errorf("%s: %.1f kt at throttle %.2f; must be %g at %.2f",
				name, entry, throttle, a.EntryFor("wing-over"), a.Throttle)
		}
		if v, _, reason := m.Stall(); reason == "" {
			t.Errorf("%s: a stall at %.1f kt", name, v)
		}
	}
}
