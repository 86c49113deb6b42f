package session_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/debrief"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/streamtest"
)

// The recorded flights were flown in a flight-dynamics library by a closed-loop pilot, in part
// with human-like noise, and one in a home simulator. truth.json is what the simulation itself
// says of each leg, interpolated at the turn angles, counted from the mean heading of the two
// seconds before the pilot begins.
const flights = "testdata/flights"

type truth struct {
	Aircraft, Maneuver string
	Legs               []legTruth
}

type legTruth struct {
	Direction, Outcome string
	Start              float64
	Entry              map[string]float64                     // heading, airspeed, altitude
	Points             map[string]map[string]float64          // by turn angle
	Exit               map[string]float64                     // nil: none, or none was recorded
	SteepestBank       *extremeTruth                          `json:"steepest_bank"`
	HighestPitch       *extremeTruth                          `json:"highest_pitch"`
	LowestAirspeed     *extremeTruth                          `json:"lowest_airspeed"`
	About              *struct{ Latitude, Longitude float64 } // the point on the ground that it was flown about
}

type extremeTruth struct{ Value, Turn float64 }

// The aircraft of the recordings are models of common classes; stall, entry and apex as measured.
var models = map[string]*aircraft.Aircraft{
	"turboprop-a": {
		Name:   "turboprop-a",
		Stall:  84,
		Entry:  220,
		Apex:   148,
		Speeds: map[string]aircraft.Speeds{"chandelle-traditional": {Entry: 200}},
	},
	"turboprop-b": {Name: "turboprop-b", Stall: 66, Entry: 155, Apex: 112},
	"jet":         {Name: "jet", Engine: "jet", Stall: 78, Entry: 220, Apex: 147},
	"single-a":    {Name: "single-a", Stall: 49, Entry: 105, Apex: 74},
	"single-b":    {Name: "single-b", Stall: 52, Entry: 118, Apex: 91},
	"sim-single":  {Name: "sim-single", Stall: 49, Entry: 100, Apex: 74},
}

// flaws are the checks that must read missed in the first leg, by flight: the intended flaw.
var flaws = map[string]string{
	"wo-turboprop-a-rushed-1":                   "pace",
	"wo-turboprop-a-abandoned-1":                "exit-heading",
	"wo-single-b-rolled-out-early-1":            "exit-heading",
	"wo-jet-entry-banked-1":                     "entry-level",
	"cc-single-a-bank-grows-1":                  "bank-held",
	"cc-single-a-nose-still-rising-1":           "nose-not-rising",
	"tc-turboprop-a-roll-out-quick-1":           "roll-evenness",
	"chandelle-traditional-turboprop-a-stalled": "no-stall",
}

// good are the flights in which nothing may be missed.
var good = map[string]bool{
	"wo-turboprop-b-good-1":                 true,
	"wing-over-turboprop-a-turbulence-good": true,
	"simulator-chandelle-civil-right":       true,
}

func loadTruth(t testing.TB) map[string]truth {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(flights, "truth.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]truth
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// datagrams reads a recording.
func datagrams(t testing.TB, name string) []capture.Datagram {
	t.Helper()
	return streamtest.Read(t, filepath.Join(flights, name+".pcap.gz"))
}

// shipped are the cards that come with the program, read once: each test needs them.
var shipped = sync.OnceValues(func() (*maneuver.Library, error) { return maneuver.LoadLibrary(configs.FS) })

func options(t testing.TB, card, plane string, out session.Output) session.Options {
	t.Helper()
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Card(card)
	if err != nil {
		t.Fatal(err)
	}
	return session.Options{
		Name:    "seat",
		Address: "127.0.0.1:1",
		Output:  out,
		Coach:   judge.Options{Plan: plan.New(c, models[plane])},
	}
}

func grade(t testing.TB, name string, w truth, out session.Output) debrief.StationReport {
	t.Helper()
	s := session.New(options(t, w.Maneuver, w.Aircraft, out))
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("the recording ended"))
	return s.Report()
}

func legsOf(r debrief.StationReport) []coach.Leg {
	var legs []coach.Leg
	for _, s := range r.Series {
		legs = append(legs, s.Legs...)
	}
	return legs
}

// legsTold keeps the legs as they are published, with their traces, which a report leaves out.
type legsTold struct{ legs []*coach.Leg }

func (l *legsTold) Event(m message.Message) {
	if leg, ok := m.Body.(message.Leg); ok {
		l.legs = append(l.legs, leg.Leg)
	}
}
func (*legsTold) Frame(string, *coach.Frame) {}
func (*legsTold) Watched(string) bool        { return false }

func TestRecordedFlights(t *testing.T) {
	all := loadTruth(t)
	if len(all) < 10 {
		t.Fatalf("only %d recordings", len(all))
	}
	for name, w := range all {
		t.Run(name, func(t *testing.T) {
			var told legsTold
			legs := legsOf(grade(t, name, w, &told))
			if len(legs) != len(w.Legs) || len(told.legs) != len(w.Legs) {
				t.Fatalf("told of %d legs, reported %d, want %d", len(told.legs), len(legs), len(w.Legs))
			}
			for i := range w.Legs {
				t.Run(fmt.Sprintf("leg %d", i+1), func(t *testing.T) { compare(t, told.legs[i], &w.Legs[i]) })
			}
			judgeFlaws(t, name, legs)
		})
	}
}

// tolerance is how far a leg may be from the truth, by channel; the entry's heading and the exit's turn by themselves.
var tolerance = map[string]float64{
	"heading":  1,
	"time":     2,
	"turn":     2,
	"pitch":    1,
	"bank":     1,
	"airspeed": 1.5,
	"altitude": 15,
}

// compare holds a leg against the truth. It ranges over the truth: what the coach did not find is as wrong as what it
// found elsewhere.
func compare(t *testing.T, l *coach.Leg, want *legTruth) {
	t.Helper()
	if l.Direction != want.Direction || l.Outcome != want.Outcome {
		t.Errorf("%s, %s (%s), want %s, %s", l.Direction, l.Outcome, l.Reason, want.Direction, want.Outcome)
	}
	near(t, "start", l.Start, want.Start, 2)
	comparePoint(t, "entry", &l.Entry, want.Entry)
	found := map[string]*coach.Point{}
	for i := range l.Points {
		found[fmt.Sprint(l.Points[i].Turn)] = &l.Points[i]
	}
	if len(found) != len(want.Points) {
		t.Errorf("%d checkpoints were passed, want %d", len(found), len(want.Points))
	}
	for turn, q := range want.Points {
		comparePoint(t, turn+"°", found[turn], q)
	}
	switch {
	case (l.Exit != nil) != (want.Outcome == coach.Finished):
		t.Errorf("a leg that is %s has the exit %v", want.Outcome, l.Exit)
	case want.Exit != nil && l.Exit != nil:
		comparePoint(t, "exit", l.Exit, want.Exit)
	}
	bank := func(x *coach.Trace) float64 { return x.Bank }
	pitch := func(x *coach.Trace) float64 { return x.Pitch }
	slow := func(x *coach.Trace) float64 {
		if x.Airspeed == nil {
			return math.Inf(-1)
		}
		return -*x.Airspeed
	}
	compareExtreme(t, "steepest bank", l.Trace, want.SteepestBank, tolerance["bank"], bank)
	compareExtreme(t, "highest pitch", l.Trace, want.HighestPitch, tolerance["pitch"], pitch)
	compareExtreme(t, "lowest airspeed", l.Trace, want.LowestAirspeed, tolerance["airspeed"], slow)
}

// comparePoint holds a point of a leg against what the truth says of it; nil is one that was not found.
func comparePoint(t *testing.T, what string, got *coach.Point, want map[string]float64) {
	t.Helper()
	if got == nil || len(want) == 0 {
		t.Errorf("%s: found %v, want %v", what, got, want)
		return
	}
	for channel, w := range want {
		v, ok := got.Values[channel]
		switch channel {
		case "time":
			v, ok = got.Time, true
		case "turn":
			v, ok = got.Turn, true
		case "heading":
			v = w + stream.Wrap180(v-w)
		}
		if !ok {
			t.Errorf("%s has no %s, want %g", what, channel, w)
			continue
		}
		near(t, what+" "+channel, v, w, tolerance[channel])
	}
}

// compareExtreme compares the largest value of a trace with the truth. Its turn angle counts within 10°: tops are flat,
// and turbulence decides where on them the largest value lies.
func compareExtreme(t *testing.T, what string, trace []coach.Trace, want *extremeTruth, by float64,
	value func(*coach.Trace) float64,
) {
	t.Helper()
	if want == nil {
		return
	}
	most, at := math.Inf(-1), math.NaN()
	for i := range trace {
		if v := value(&trace[i]); v > most {
			most, at = v, trace[i].Turn
		}
	}
	near(t, what, math.Abs(most), want.Value, by)
	if !(math.Abs(at-want.Turn) <= 10) {
		t.Errorf("%s at %g°, want %g°", what, at, want.Turn)
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.2f, want %.2f within %g", what, got, want, within)
	}
}

// judgeFlaws looks for the intended flaw, and for none where none was meant.
func judgeFlaws(t *testing.T, name string, legs []coach.Leg) {
	found := flaws[name] == ""
	for i := range legs {
		for _, k := range legs[i].Checks {
			if k.Verdict == coach.Missed {
				found = found || i == 0 && k.ID == flaws[name]
				if good[name] {
					t.Errorf("leg %d of a good flight misses %s: %v", i+1, k.ID, *k.Value)
				}
			}
		}
	}
	if !found {
		t.Errorf("%s does not read missed", flaws[name])
	}
}

// events keeps all messages, as JSON.
type events struct{ lines []string }

func (e *events) Event(m message.Message) {
	b, err := json.Marshal(m)
	if err != nil {
		panic(err)
	}
	e.lines = append(e.lines, string(b))
}
func (*events) Frame(string, *coach.Frame) {}
func (*events) Watched(string) bool        { return true }

// TestSameSamplesSameEvents holds the law that a coach is a pure function of the samples: fed
// again, with other receive times and with every datagram there twice, it says the same to
// the byte. Only what the station says of its own rate is left out.
func TestSameSamplesSameEvents(t *testing.T) {
	w := loadTruth(t)["wo-turboprop-b-good-1"]
	play := func(twice bool, shift float64) []string {
		var e events
		s := session.New(options(t, w.Maneuver, w.Aircraft, &e))
		for _, d := range datagrams(t, "wo-turboprop-b-good-1") {
			s.Feed(d.Payload, d.Seconds()+shift)
			if twice {
				s.Feed(d.Payload, d.Seconds()+shift)
			}
		}
		s.End(phrase.Read("over"))
		var coached []string
		for _, line := range e.lines {
			var m map[string]any
			if err := json.Unmarshal([]byte(line), &m); err != nil {
				t.Fatal(err)
			}
			if m["type"] == message.TypeStation {
				continue
			}
			delete(m, "seq")
			b, _ := json.Marshal(m)
			coached = append(coached, string(b))
		}
		return coached
	}
	once := play(false, 0)
	if len(once) < 20 {
		t.Fatalf("only %d events", len(once))
	}
	if d := cmp.Diff(once, play(true, 1e6)); d != "" {
		t.Errorf("fed again it says something else (-first +again):\n%s", d)
	}
}
