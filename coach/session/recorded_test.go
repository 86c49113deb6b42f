package session_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream/capture"
	"halfturn/stream/station"
	"halfturn/stream/wire"
)

// The recorded flights were flown in a flight-dynamics library by a closed-loop pilot, in part
// with human-like noise, and one in a home simulator. truth.json is what the simulation itself
// says of each leg, interpolated at the turn angles, counted from the mean heading of the two
// seconds before the pilot begins.
const flights = "testdata/flights"

type truth struct {
	Aircraft, Maneuver string
	Legs               []struct {
		Direction string
		Start     float64
		Points    map[string]struct{ Pitch, Bank, Airspeed, Altitude float64 }
		Exit      *struct{ Turn, Airspeed, Altitude float64 }
	}
}

// The aircraft of the recordings are models of common classes; stall, entry and apex as measured.
var aircraft = map[string]*maneuver.Aircraft{
	"turboprop-a": {Name: "turboprop-a", Stall: 84, Entry: 220, Apex: 148, Speeds: map[string]maneuver.Speeds{"chandelle-traditional": {Entry: 200}}},
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

// outcomes are those of first legs that did not finish.
var outcomes = map[string]string{
	"wo-turboprop-a-abandoned-1":                coach.BrokenOff,
	"wing-over-turboprop-a-reset":               coach.BrokenOff,
	"chandelle-traditional-turboprop-a-stalled": coach.KnockOff,
}

// good are the flights in which nothing may be missed.
var good = map[string]bool{"wo-turboprop-b-good-1": true, "wing-over-turboprop-a-turbulence-good": true, "simulator-chandelle-civil-right": true}

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
	f, err := os.Open(filepath.Join(flights, name+".pcap.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := capture.Open(f)
	if err != nil {
		t.Fatal(err)
	}
	var list []capture.Datagram
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		d.Payload = append([]byte(nil), d.Payload...)
		list = append(list, d)
	}
}

func options(t testing.TB, card, plane string, out session.Output) session.Options {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Card(card)
	if err != nil {
		t.Fatal(err)
	}
	return session.Options{Name: "seat", Address: "127.0.0.1:1", Output: out,
		Station: station.Options{Wire: wire.Options{Maps: wire.ShippedMaps()}},
		Coach:   coach.Options{Plan: coach.NewPlan(c, aircraft[plane])}}
}

func grade(t testing.TB, name string, w truth, out session.Output) debrief.Station {
	t.Helper()
	s := session.New(options(t, w.Maneuver, w.Aircraft, out))
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End("the recording ended")
	return s.Report()
}

func legsOf(r debrief.Station) []coach.Leg {
	var legs []coach.Leg
	for _, s := range r.Series {
		legs = append(legs, s.Legs...)
	}
	return legs
}

func TestRecordedFlights(t *testing.T) {
	all := loadTruth(t)
	if len(all) < 10 {
		t.Fatalf("only %d recordings", len(all))
	}
	for name, w := range all {
		t.Run(name, func(t *testing.T) {
			legs := legsOf(grade(t, name, w, nil))
			if len(legs) != len(w.Legs) {
				t.Fatalf("found %d legs, want %d", len(legs), len(w.Legs))
			}
			for i := range legs {
				compare(t, &legs[i], &w, i)
			}
			judge(t, name, legs)
		})
	}
}

// compare holds a leg against the truth, within a degree, 1.5 kt and 15 ft.
func compare(t *testing.T, l *coach.Leg, w *truth, i int) {
	want := w.Legs[i]
	if l.Direction != want.Direction || math.Abs(l.Start-want.Start) > 2 {
		t.Errorf("leg %d: %s from %.2f s, want %s from %.2f s", i+1, l.Direction, l.Start, want.Direction, want.Start)
	}
	for _, p := range l.Points {
		q, ok := want.Points[fmt.Sprint(p.Turn)]
		if !ok {
			continue
		}
		near(t, fmt.Sprintf("leg %d pitch at %g°", i+1, p.Turn), p.Values["pitch"], q.Pitch, 1)
		near(t, fmt.Sprintf("leg %d bank at %g°", i+1, p.Turn), p.Values["bank"], q.Bank, 1)
		near(t, fmt.Sprintf("leg %d airspeed at %g°", i+1, p.Turn), p.Values["airspeed"], q.Airspeed, 1.5)
		near(t, fmt.Sprintf("leg %d altitude at %g°", i+1, p.Turn), p.Values["altitude"], q.Altitude, 15)
	}
	if l.Exit != nil && want.Exit != nil {
		near(t, "exit turn", l.Exit.Turn, want.Exit.Turn, 2)
		near(t, "exit airspeed", l.Exit.Values["airspeed"], want.Exit.Airspeed, 1.5)
		near(t, "exit altitude", l.Exit.Values["altitude"], want.Exit.Altitude, 15)
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s is %.2f, want %.2f within %g", what, got, want, within)
	}
}

// judge looks for the intended flaw, and for none where none was meant.
func judge(t *testing.T, name string, legs []coach.Leg) {
	want := coach.Finished
	if o, ok := outcomes[name]; ok {
		want = o
	}
	if legs[0].Outcome != want {
		t.Errorf("the first leg is %s (%s), want %s", legs[0].Outcome, legs[0].Reason, want)
	}
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

func (e *events) Event(m session.Message) {
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
		s.End("over")
		var coached []string
		for _, line := range e.lines {
			var m map[string]any
			if err := json.Unmarshal([]byte(line), &m); err != nil {
				t.Fatal(err)
			}
			if m["type"] == session.TypeStation {
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
