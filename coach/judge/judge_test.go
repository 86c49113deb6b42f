package judge_test

import (
	"encoding/json"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
)

// plans are those of all shipped cards for an aircraft.
func plans(t testing.TB, aircraft string) (list []*plan.Plan) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed(aircraft)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range lib.Cards() {
		list = append(list, plan.New(c, a))
	}
	return list
}

// flown is a station with some judges, and all they said as JSON, by judge.
type flown struct {
	shared judge.Shared
	judges []*judge.Judge
	said   []strings.Builder
}

func newFlown(list ...*plan.Plan) *flown {
	f := &flown{said: make([]strings.Builder, len(list))}
	for _, p := range list {
		o := judge.Options{Plan: p, Deck: 1500, Explain: cause.Explainer{}}
		f.judges = append(f.judges, judge.New(&f.shared, o))
	}
	return f
}

func (f *flown) step(t *testing.T, s *stream.Sample) {
	f.shared.Step(s)
	for i, j := range f.judges {
		j.Step(s)
		f.note(t, i, j.Take())
	}
}

func (f *flown) end(t *testing.T) {
	for i, j := range f.judges {
		j.Break(phrase.Plain("the flight is over"))
		f.note(t, i, j.Take())
	}
	f.shared.Clear()
}

func (f *flown) note(t *testing.T, i int, events []coach.Event) {
	for _, e := range events {
		b, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		f.said[i].Write(append(b, '\n'))
	}
}

// What a judge says is the same whether or not others share its tracker.
func TestSharingChangesNothing(t *testing.T) {
	list := plans(t, "light-single")
	together := newFlown(list...)
	var alone []*flown
	for _, p := range list {
		alone = append(alone, newFlown(p))
	}
	pilot, err := trainer.NewSequence(
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: "light-single", Seed: 5},
		trainer.Flight{Maneuver: "chandelle-civil", Direction: "left", Airplane: "light-single", Seed: 5},
	)
	if err != nil {
		t.Fatal(err)
	}
	var s stream.Sample
	for pilot.Step(1.0/60, &s) {
		together.step(t, &s)
		for _, f := range alone {
			f.step(t, &s)
		}
	}
	together.end(t)
	legs := 0
	for i, f := range alone {
		f.end(t)
		got, want := together.said[i].String(), f.said[0].String()
		legs += strings.Count(want, `"outcome"`)
		if got != want {
			t.Errorf("%s says otherwise among others", list[i].Card.Name)
		}
	}
	if legs < 6 {
		t.Errorf("%d legs: the flight shows little", legs)
	}
}

// After a jump of the stream a judge starts again from nothing: the same flight again gives the same.
func TestBreakForgets(t *testing.T) {
	f := newFlown(plans(t, "light-single")...)
	fly := func() {
		pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "light-single",
			Seed: 5})
		if err != nil {
			t.Fatal(err)
		}
		var s stream.Sample
		for pilot.Step(1.0/60, &s) {
			f.step(t, &s)
		}
		f.end(t)
	}
	fly()
	first := make([]string, len(f.said))
	for i := range f.said {
		first[i] = f.said[i].String()
		f.said[i].Reset()
	}
	fly()
	for i := range f.said {
		if got := f.said[i].String(); got != first[i] || got == "" {
			t.Errorf("judge %d says otherwise the second time, or nothing", i)
		}
	}
}

// Only the checks of a leg that is being flown are allocated; a sample is not.
func TestStepAllocatesNothing(t *testing.T) {
	f := newFlown(plans(t, "light-single")[0])
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "light-single",
		Seed: 5})
	if err != nil {
		t.Fatal(err)
	}
	var s stream.Sample
	for range 60 * 8 {
		pilot.Step(1.0/60, &s)
		f.step(t, &s)
	}
	now := s.Value(stream.Time)
	if n := testing.AllocsPerRun(600, func() {
		now += 1.0 / 60
		s.Put(stream.Time, now)
		f.shared.Step(&s)
		f.judges[0].Step(&s)
	}); n != 0 {
		t.Errorf("%v allocations per sample", n)
	}
}
