package audit

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/trainer"
)

// A flight is what was flown and heard.
type flight struct {
	name    string
	plan    *plan.Plan
	samples []sample
	legs    []*coach.Leg
	// committed are the times at which legs were found.
	committed []float64
	called    []*coach.Callout
	heard     []*heard
	rough     bool // the bank is moved to and fro: nobody can foretell when a turn angle comes
	good      bool
}

// A sample is the flight at one moment; NaN is what the stream does not have.
type sample struct{ time, bank, pitch, speed, altitude, ball, load, power float64 }

func sampleOf(s *stream.Sample) sample {
	get := func(ch stream.Channel) float64 {
		if v, ok := s.Get(ch); ok {
			return v
		}
		return math.NaN()
	}
	power := math.NaN()
	var m check.Moment
	m.Set(s, 0, 1)
	if v, ok := check.PowerAt(&m); ok {
		power = v
	}
	return sample{
		time:     s.Value(stream.Time),
		bank:     s.Value(stream.Bank),
		pitch:    s.Value(stream.Pitch),
		speed:    get(stream.Airspeed),
		altitude: get(stream.Altitude),
		ball:     get(stream.Ball),
		load:     get(stream.NormalLoad),
		power:    power,
	}
}

// at returns the sample of a moment.
func (f *flight) at(time float64) sample {
	first, last := f.samples[0].time, len(f.samples)-1
	share := (time - first) / (f.samples[last].time - first) // they are spaced evenly, nearly
	i := int(max(0, min(share, 1)) * float64(last))
	for i > 0 && f.samples[i-1].time >= time {
		i--
	}
	for i < last && f.samples[i].time < time {
		i++
	}
	return f.samples[i]
}

// run coaches samples by a plan, and listens. how is how much is said.
func run(name string, p *plan.Plan, how string, next func(*stream.Sample) bool) *flight {
	f := &flight{name: name, plan: p}
	ear := &ear{}
	c := follow.New(judge.Options{Plan: p, Explain: nil})
	c.Prompt(how)
	flying := false
	take := func() {
		for _, e := range c.Take() {
			switch e := e.(type) {
			case *coach.Leg:
				f.legs = append(f.legs, e)
				ear.legOver()
			case *coach.Phase:
				if e.Direction != "" && !flying {
					f.committed = append(f.committed, e.Time)
				}
				flying = e.Direction != "" && e.Phase != "after"
			case *coach.Callout:
				f.called = append(f.called, e)
				ear.call(e)
			}
		}
	}
	var s stream.Sample
	n := 0
	for next(&s) {
		if !c.Step(&s) {
			continue
		}
		take()
		f.samples = append(f.samples, sampleOf(&s))
		if n++; n%2 == 0 && len(ear.waiting) > 0 { // a frame costs more than all else that is done with a sample
			ear.look(c.Frame())
		}
	}
	c.Break(phrase.Plain("over"))
	take()
	f.heard = ear.heard
	return f
}

var library = sync.OnceValues(func() (*maneuver.Library, error) { return maneuver.LoadLibrary(configs.FS) })

func card(t testing.TB, name string) *maneuver.Card {
	t.Helper()
	lib, err := library()
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Card(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// rehearsed is what pilots of an airplane have found out by flying before; the airplanes are flown beside each other.
var rehearsed = map[string]*trainer.Rehearsals{"light-single": {}, "turboprop-trainer": {}}

// plans are those of the shipped cards and aircraft made so far, by airplane and card: a plan never changes.
var plans = map[string]map[string]*plan.Plan{"light-single": {}, "turboprop-trainer": {}}

// flyTrainer flies the built-in pilot.
func flyTrainer(t testing.TB, how string, w trainer.Flight) *flight {
	t.Helper()
	lib, err := library()
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed(w.Airplane)
	if err != nil {
		t.Fatal(err)
	}
	pilot, err := rehearsed[w.Airplane].NewSequence(w)
	if err != nil {
		t.Fatal(err)
	}
	flaw := w.Flaw
	if flaw == "" {
		flaw = "good"
	}
	name := strings.Join(strings.Fields(fmt.Sprintf("%s %s %s %s", w.Airplane, w.Maneuver, flaw, w.Strength)), " ")
	known := plans[w.Airplane]
	if known[w.Maneuver] == nil {
		known[w.Maneuver] = plan.New(card(t, w.Maneuver), a)
	}
	on := true
	f := run(name, known[w.Maneuver], how, func(s *stream.Sample) bool {
		was := on
		if was {
			on = pilot.Step(1.0/60, s)
		}
		return was
	})
	f.rough, f.good = w.Flaw == "rough", w.Flaw == ""
	return f
}

// models are the aircraft of the recordings: stall, entry and apex as measured in the simulation that flew them.
var models = map[string]*aircraft.Aircraft{
	"turboprop-a": {Name: "turboprop-a", Stall: 84, Entry: 220, Apex: 148, Ratio: 11, Glide: 125,
		Speeds: map[string]aircraft.Speeds{"chandelle-traditional": {Entry: 200}}},
	"turboprop-b": {Name: "turboprop-b", Stall: 66, Entry: 155, Apex: 112},
	"jet":         {Name: "jet", Engine: "jet", Stall: 78, Entry: 220, Apex: 147},
	"single-a": {Name: "single-a", Stall: 49, Entry: 105, Apex: 74,
		Speeds: map[string]aircraft.Speeds{"lazy-eight": {Entry: 100}}},
	"single-b":   {Name: "single-b", Stall: 52, Entry: 118, Apex: 91},
	"sim-single": {Name: "sim-single", Stall: 49, Entry: 100, Apex: 74},
}

// A label is what a recording is of.
type label struct{ Aircraft, Maneuver string }

// recorded are the recordings that come with the tests.
const recorded = "../../session/testdata/flights"

// flyRecording coaches one recording.
func flyRecording(t testing.TB, how, file, name string, l label) *flight {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := capture.Open(f)
	if err != nil {
		t.Fatal(err)
	}
	station := pipeline.New(pipeline.Options{})
	flown := run(name, plan.New(card(t, l.Maneuver), models[l.Aircraft]), how, func(s *stream.Sample) bool {
		for {
			d, err := r.Next()
			if errors.Is(err, io.EOF) {
				return false
			}
			if err != nil {
				t.Fatal(err)
			}
			if got, _ := station.Feed(d.Payload, d.Seconds()); got != nil {
				*s = *got
				return true
			}
		}
	})
	flown.good = strings.Contains(name, "good")
	return flown
}

// labels reads what the recordings that come with the tests are of.
func labels(t testing.TB) map[string]label {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(recorded, "truth.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]label
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	return all
}
