package follow_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
)

var wingOver = trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: "turboprop-trainer", Seed: 1}

func TestWhatAStreamLacksIsNotMeasured(t *testing.T) {
	drop := []stream.Channel{stream.Airspeed, stream.Throttle, stream.Torque, stream.N1, stream.RPM, stream.Ball,
		stream.LateralLoad, stream.Sideslip}
	legs, _, _ := fly(t, wingOver, func(_ int, s *stream.Sample) {
		for _, c := range drop {
			s.Drop(c)
		}
	})
	if len(legs) != 2 {
		t.Fatalf("%d legs, want 2: attitude and altitude are enough", len(legs))
	}
	absent := map[string]bool{"entry-speed": true, "apex-speed": true, "exit-speed": true, "power-constant": true,
		"coordination": true, "ball-centered": true, "stall-margin": true,
		"area-cleared": true, "clearing-bank": true, "clearing-side": true} // followed for less than three minutes
	without := 0
	for _, k := range legs[0].Checks {
		if absent[k.ID] {
			without++
		}
		if absent[k.ID] != (k.Verdict == coach.NotMeasured) {
			t.Errorf("%s reads %s (%s)", k.ID, k.Verdict, k.Reason)
		}
		if absent[k.ID] && (k.Reason.IsZero() || k.Value != nil) {
			t.Errorf("%s: value %v, reason %q", k.ID, k.Value, k.Reason)
		}
	}
	if without != len(absent) || len(legs[0].Checks) <= without {
		t.Errorf("%d of %d checks cannot be measured, want %d", without, len(legs[0].Checks), len(absent))
	}
	if _, ok := legs[0].Entry.Values["airspeed"]; ok {
		t.Error("the entry has an airspeed that nobody sent")
	}
}

func TestWithoutAnAircraftCard(t *testing.T) {
	f := wingOver
	pilot, err := rehearsed.NewSequence(f)
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "")})
	var s stream.Sample
	var leg *coach.Leg
	for pilot.Step(1.0/60, &s) && leg == nil {
		c.Step(&s)
		for _, e := range c.Take() {
			if l, ok := e.(*coach.Leg); ok {
				leg = l
			}
		}
	}
	if leg == nil {
		t.Fatal("no leg was found")
	}
	if len(leg.Checks) < 10 {
		t.Fatalf("only %d checks", len(leg.Checks))
	}
	for _, k := range leg.Checks {
		needs := map[string]bool{"entry-speed": true, "apex-speed": true, "highest-nose": true, "stall-margin": true,
			"pace": true, "area-cleared": true, "clearing-bank": true, "clearing-side": true}[k.ID]
		if needs != (k.Verdict == coach.NotMeasured) {
			t.Errorf("%s reads %s (%s)", k.ID, k.Verdict, k.Reason)
		}
	}
}

// level makes level coordinated flight with a bank program; turn rate is g·tan(bank)/V.
func level(c *follow.Single, seconds float64, bank func(t float64) float64) []coach.Event {
	var s stream.Sample
	var all []coach.Event
	heading := 100.0
	for t := 0.0; t < seconds; t += 1.0 / 30 {
		const v = 150 * 1852.0 / 3600 // m/s
		b := bank(t)
		heading += 9.80665 * math.Tan(b*math.Pi/180) / v * 180 / math.Pi / 30
		s.Reset()
		s.Put(stream.Time, t+1)
		s.Put(stream.Heading, heading)
		s.Put(stream.Pitch, 1)
		s.Put(stream.Bank, b)
		s.Put(stream.Airspeed, 150)
		s.Put(stream.Altitude, 5000)
		s.Put(stream.Height, 4000)
		c.Step(&s)
		all = append(all, c.Take()...)
	}
	c.Break(phrase.Plain("over"))
	return append(all, c.Take()...)
}

func TestTurnsAreNoLegs(t *testing.T) {
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "turboprop-trainer")})
	// Two opposite clearing turns of 90° or so, then a turn of more than 360°.
	for _, e := range level(c, 200, func(t float64) float64 {
		switch {
		case t > 10 && t < 25:
			return 45
		case t > 40 && t < 55:
			return -45
		case t > 80 && t < 190:
			return 30
		}
		return 0
	}) {
		switch e := e.(type) {
		case *coach.Leg, *coach.Series:
			t.Errorf("a level turn became %+v", e)
		case *coach.Callout:
			if e.Kind != coach.SetUpSaid {
				t.Errorf("%q was said of a level turn", e.Words)
			}
		}
	}
}

func TestGatesOpenAndClose(t *testing.T) {
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "")})
	var ready []bool
	for _, e := range level(c, 30, func(t float64) float64 {
		if t > 12 && t < 18 {
			return 9
		}
		return 0
	}) {
		if s, ok := e.(*coach.Setup); ok && (len(ready) == 0 || ready[len(ready)-1] != s.Ready) {
			ready = append(ready, s.Ready)
		}
	}
	if len(ready) != 3 || !ready[0] || ready[1] || !ready[2] {
		t.Errorf("the set-up was ready, in order: %v; want true false true", ready)
	}
}

func TestASampleWithoutAttitudeIsPassedOver(t *testing.T) {
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "")})
	var s stream.Sample
	s.Put(stream.Time, 1)
	s.Put(stream.Heading, 90)
	if c.Step(&s) {
		t.Error("a sample without pitch and bank was taken")
	}
}

func TestChoosingBreaksOff(t *testing.T) {
	pilot, err := rehearsed.NewSequence(wingOver)
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "turboprop-trainer")})
	var s stream.Sample
	for range 60 * 30 {
		pilot.Step(1.0/60, &s)
		c.Step(&s)
	}
	c.Take()
	c.Choose(planOf(t, "chandelle-civil", "turboprop-trainer"))
	var leg *coach.Leg
	var series *coach.Series
	for _, e := range c.Take() {
		switch e := e.(type) {
		case *coach.Leg:
			leg = e
		case *coach.Series:
			series = e
		}
	}
	if leg == nil || leg.Outcome != coach.BrokenOff || leg.Verdict != coach.NotMeasured ||
		!strings.Contains(leg.Reason.String(), "chosen") {
		t.Errorf("the leg is %+v", leg)
	}
	if series == nil || series.Maneuver != "wing-over" {
		t.Errorf("the series is %+v", series)
	}
}

// TestLegsWithoutAPause: the second leg of a pair may begin where the first rolls through level.
func TestLegsWithoutAPause(t *testing.T) {
	var before, after []stream.Sample
	record := func(direction string) []stream.Sample {
		pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: "wing-over", Direction: direction,
			Airplane: "turboprop-trainer", Steady: true})
		if err != nil {
			t.Fatal(err)
		}
		var list []stream.Sample
		var s stream.Sample
		for pilot.Step(1.0/60, &s) {
			list = append(list, s)
		}
		return list
	}
	// Cut the right one where its wings come level, the left one where its bank begins.
	before, after = record("right"), record("left")
	end := len(before) - 1
	for end > 0 && math.Abs(before[end].Value(stream.Bank)) < 1 {
		end--
	}
	begin := 0
	for math.Abs(after[begin].Value(stream.Bank)) < 1 {
		begin++
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "turboprop-trainer")})
	now, turn := 0.0, before[end].Value(stream.Heading)-after[begin].Value(stream.Heading)
	var legs []*coach.Leg
	for i, s := range append(before[:end:end], after[begin:]...) {
		now += 1.0 / 60
		s.Put(stream.Time, now)
		if i >= end {
			s.Put(stream.Heading, s.Value(stream.Heading)+turn)
		}
		c.Step(&s)
		for _, e := range c.Take() {
			if l, ok := e.(*coach.Leg); ok {
				legs = append(legs, l)
			}
		}
	}
	if len(legs) != 2 || legs[0].Outcome != coach.Finished || legs[1].Outcome != coach.Finished ||
		legs[1].Direction != "left" {
		t.Fatalf("legs: %+v", legs)
	}
	if gap := legs[1].Start - legs[0].End; gap > 4 {
		t.Errorf("the second leg starts %.1f s after the first ended", gap)
	}
	if turned := legs[1].Exit.Turn; math.Abs(turned-180) > 8 {
		t.Errorf("the second leg turned %.1f°", turned)
	}
	asked := 0
	for _, k := range legs[1].Checks {
		if k.Kind == "set-up" {
			asked++
			if k.Verdict != coach.NotMeasured || !k.Reason.Is(phrase.NoLevelFlight) {
				t.Errorf("%s of the second leg: %s, %q", k.ID, k.Verdict, k.Reason)
			}
		}
	}
	if asked == 0 {
		t.Error("the card has no check of the set-up")
	}
}

// TestShifted holds a law: another clock, another heading origin and another altitude datum change
// nothing but those. The air is thinner higher up, so times may move by what that makes.
func TestShifted(t *testing.T) {
	plain, _, _ := fly(t, wingOver, nil)
	moved, _, _ := fly(t, wingOver, func(_ int, s *stream.Sample) {
		s.Put(stream.Time, s.Value(stream.Time)+86400)
		s.Put(stream.Heading, s.Value(stream.Heading)+77)
		s.Put(stream.Altitude, s.Value(stream.Altitude)+300)
	})
	if len(plain) != 2 || len(moved) != 2 {
		t.Fatalf("%d and %d legs", len(plain), len(moved))
	}
	for i := range plain {
		if d := moved[i].Start - plain[i].Start; math.Abs(d-86400) > 0.1 {
			t.Errorf("leg %d starts %.3f s later", i+1, d)
		}
		for j, k := range plain[i].Checks {
			m := moved[i].Checks[j]
			within := 0.05 // of a degree or knot: the look back goes by ticks of the clock
			if k.Channel == "vertical-speed" {
				within = 5 // ft/min, likewise
			}
			if (k.Value == nil) != (m.Value == nil) || k.Value != nil && math.Abs(*k.Value-*m.Value) > within ||
				k.Verdict != m.Verdict {
				t.Errorf("leg %d, %s: %v, moved %v", i+1, k.ID, *k.Value, *m.Value)
			}
		}
	}
}
