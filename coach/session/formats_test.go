package session_test

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A carried format says at what rate its programs send, what of a wing-over it cannot carry, and
// how far values at a turn angle may be off for its rounding and its rates: attitude in °, airspeed
// in kt, altitude in ft. Altitude that comes once a second is up to a second old, which at 60 ft/s of
// climb is 60 ft.
type carriedBy struct {
	rate                         float64
	lacks                        []string
	attitude, airspeed, altitude float64
	start                        float64 // s
}

var byFormat = map[string]carriedBy{
	"labels":  {rate: 60, attitude: 0.01, airspeed: 0.01, altitude: 0.1, start: 0.05},
	"columns": {rate: 60, attitude: 0.02, airspeed: 0.02, altitude: 0.1, start: 0.05},
	"pairs":   {rate: 60, attitude: 0.02, airspeed: 0.02, altitude: 0.1, start: 0.05},
	"rows":    {rate: 60, attitude: 0.01, airspeed: 0.01, altitude: 0.1, start: 0.05},
	"json":    {rate: 60, attitude: 0.001, airspeed: 0.001, altitude: 0.01, start: 0.001},
	"binary":  {rate: 60, attitude: 0.01, airspeed: 0.01, altitude: 0.1, start: 0.05},
	"rref":    {rate: 30, attitude: 0.1, airspeed: 0.05, altitude: 0.5, start: 0.1},
	"rpos": {
		rate:     60,
		lacks:    []string{"airspeed", "stall-margin", "normal-load", "power", "slip"},
		attitude: 0.02,
		altitude: 0.1,
		start:    0.1,
	},
	"xatt": {
		rate:     5,
		lacks:    []string{"airspeed", "stall-margin", "power"},
		attitude: 0.5,
		altitude: 90,
		start:    0.4,
	},
	"gdl90": {rate: 5, lacks: []string{"power", "slip"}, attitude: 0.5, airspeed: 1, altitude: 90, start: 0.4},
	"fdm24": {rate: 60, lacks: []string{"power"}, attitude: 0.02, airspeed: 0.02, altitude: 0.1, start: 0.1},
	"fdm25": {rate: 60, lacks: []string{"power"}, attitude: 0.02, airspeed: 0.02, altitude: 0.1, start: 0.1},
	"mavlink1": {
		rate:     10,
		lacks:    []string{"stall-margin", "normal-load", "slip"},
		attitude: 0.3,
		airspeed: 2,
		altitude: 20,
		start:    0.3,
	},
	"mavlink2": {
		rate:     10,
		lacks:    []string{"stall-margin", "normal-load", "slip"},
		attitude: 0.3,
		airspeed: 2,
		altitude: 20,
		start:    0.3,
	},
	"dis": {
		rate:     60,
		lacks:    []string{"airspeed", "stall-margin", "normal-load", "power", "slip"},
		attitude: 0.02,
		altitude: 0.1,
		start:    0.1,
	},
}

// flySent has the built-in pilot fly and its simulator send in the format, and returns the legs found
// and the stream time of the first sample.
func flySent(t *testing.T, format string, rate float64) ([]coach.Leg, message.Station) {
	t.Helper()
	pilot, err := trainer.New(trainer.Flight{Seed: 7, Latitude: 47, Longitude: 11})
	if err != nil {
		t.Fatal(err)
	}
	e, err := encode.New(format)
	if err != nil {
		t.Fatal(err)
	}
	s := session.New(trainerOptions(t))
	const fine = 60 // the flight is the same whatever is sent of it
	var sample stream.Sample
	var info message.Station
	first := math.NaN()
	for i := 0; pilot.Step(1.0/fine, &sample); i++ {
		if i%int(fine/rate) != 0 {
			continue
		}
		now := 1.7e9 + sample.Value(stream.Time)
		if math.IsNaN(first) {
			first = sample.Value(stream.Time)
			if p := e.Preamble(); p != nil {
				s.Feed(p, now)
			}
		}
		feed := func(b []byte) {
			// Level flight can stand still in tenths of a degree.
			r := s.Feed(bytes.Clone(b), now)
			if r.Drop != "" && r.Drop != "no-labels" && !(rate < 10 && r.Drop == "duplicate") {
				t.Fatalf("%.2f s: %+v", sample.Value(stream.Time), r)
			}
		}
		if split, ok := e.(encode.Splitter); ok {
			split.Datagrams(&sample, feed)
		} else {
			feed(e.Append(nil, &sample))
		}
		info = s.Info(now)
	}
	s.End(phrase.Read("the flight is over"))
	legs := legsOf(s.Report())
	if !s.Station().BySimulator() { // stream time begins with the first sample
		for i := range legs {
			legs[i].Start += first
		}
	}
	return legs, info
}

// trainerOptions follow a wing-over in the built-in aircraft.
func trainerOptions(t testing.TB) session.Options {
	t.Helper()
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	plane, err := lib.AircraftNamed("radial-trainer")
	if err != nil {
		t.Fatal(err)
	}
	return session.Options{Name: "seat", Coach: judge.Options{Plan: plan.New(card, plane)}}
}

// TestFormats: the same flight, sent in each format by its own rates, gives the same legs. What a
// format lacks is not measured, and nothing else is.
func TestFormats(t *testing.T) {
	want, _ := flySent(t, "json", 60)
	if len(want) != 2 || want[0].Outcome != coach.Finished || want[1].Outcome != coach.Finished {
		t.Fatalf("%d legs flown, %+v", len(want), want)
	}
	for _, format := range encode.Formats() {
		t.Run(format, func(t *testing.T) {
			by, ok := byFormat[format]
			if !ok {
				t.Fatal("what this format can carry is not told here")
			}
			legs, info := flySent(t, format, by.rate)
			if len(legs) != len(want) {
				t.Fatalf("%d legs, want %d (%s, %v)", len(legs), len(want), info.Format, info.Channels)
			}
			for i := range legs {
				compareSent(t, fmt.Sprintf("leg %d", i+1), &legs[i], &want[i], &by)
			}
		})
	}
}

func compareSent(t *testing.T, what string, got, want *coach.Leg, by *carriedBy) {
	t.Helper()
	if got.Direction != want.Direction || got.Outcome != want.Outcome || len(got.Points) != len(want.Points) ||
		len(got.Checks) != len(want.Checks) || got.Exit == nil {
		t.Fatalf("%s: %s, %s (%s), %d points", what, got.Direction, got.Outcome, got.Reason, len(got.Points))
	}
	near(t, what+" start", got.Start, want.Start, by.start)
	for i, p := range got.Points {
		q := want.Points[i]
		at := fmt.Sprintf("%s at %g°: ", what, p.Turn)
		near(t, at+"pitch", p.Values["pitch"], q.Values["pitch"], by.attitude)
		near(t, at+"bank", p.Values["bank"], q.Values["bank"], by.attitude)
		near(t, at+"altitude", p.Values["altitude"], q.Values["altitude"], by.altitude)
		if v, ok := p.Values["airspeed"]; ok != !slices.Contains(by.lacks, "airspeed") {
			t.Errorf("%sairspeed is there: %v", at, ok)
		} else if ok {
			near(t, at+"airspeed", v, q.Values["airspeed"], by.airspeed)
		}
	}
	near(t, what+" exit", got.Exit.Turn, want.Exit.Turn, 2*by.attitude+0.1)
	for i, k := range got.Checks {
		w := &want.Checks[i]
		if w.Reason.Is(phrase.NoClearing) { // a flight of less than three minutes
			continue
		}
		if w.ID != k.ID || w.Verdict == coach.NotMeasured {
			t.Fatalf("check %s of the flight itself: %s", w.ID, w.Verdict)
		}
		if lacks := slices.Contains(by.lacks, k.Channel); lacks != (k.Verdict == coach.NotMeasured) {
			t.Errorf("%s: check %s of %s reads %s (%s)", what, k.ID, k.Channel, k.Verdict, k.Reason)
		}
	}
}
