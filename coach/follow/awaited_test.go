package follow_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/trainer"
)

// From the exit of a chandelle to its verdict, the time in which its recovery is watched (FAA-S-ACS-7 CA.V.C.S7 and
// S8), each frame says which leg waits for it, with its turn, side and climb; before and after none does.
func TestFramesSayWhichLegIsAwaited(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("chandelle-civil")
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed("light-single")
	if err != nil {
		t.Fatal(err)
	}
	p := plan.New(card, a)
	pilot, err := rehearsed.NewSequence(trainer.Flight{
		Maneuver:  "chandelle-civil",
		Airplane:  "light-single",
		Direction: "left",
		Seed:      3,
	})
	if err != nil {
		t.Fatal(err)
	}
	f := follow.New(judge.Options{Plan: p})
	var legs []*coach.Leg
	var first, last *coach.Frame
	var s stream.Sample
	for on := true; on; {
		on = pilot.Step(1.0/60, &s)
		if !f.Step(&s) {
			continue
		}
		for _, e := range f.Take() {
			if l, ok := e.(*coach.Leg); ok {
				legs = append(legs, l)
			}
		}
		frame := f.Frame()
		if frame.Awaited == nil {
			continue
		}
		if len(legs) > 0 {
			t.Fatalf("at %g s a leg is awaited that has its verdict", frame.Time)
		}
		if first == nil {
			first = frame
		}
		last = frame
	}
	if len(legs) != 1 || first == nil {
		t.Fatalf("%d legs; awaited: %v", len(legs), first)
	}
	l := legs[0]
	if watched := last.Time - first.Time; watched < card.Recovery.Time-1.5 || watched > card.Recovery.Time+0.5 {
		t.Errorf("it is awaited for %.1f s; the recovery is watched for %g s", watched, card.Recovery.Time)
	}
	if want := (coach.Awaited{Leg: 1, Start: l.Start}); *last.Awaited != want {
		t.Errorf("%+v is awaited; must be %+v", *last.Awaited, want)
	}
	for _, f := range []*coach.Frame{first, last} {
		if f.State != "after" || f.Direction != "left" || f.Turn < 170 || f.Climb == nil || *f.Climb < 100 {
			t.Errorf("%s, %s, %g° turned, climb %v", f.State, f.Direction, f.Turn, f.Climb)
		}
	}
}
