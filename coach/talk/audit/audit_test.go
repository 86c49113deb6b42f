package audit

import (
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/callout"
	"halfturn/stream/trainer"
)

var (
	update     = flag.Bool("update", false, "rewrite the golden files")
	recordings = flag.String("recordings", "", "folder of more recordings, with their labels in flights.json")
)

// mostWords is how many words a callout has at most, and mostCorrections how many corrections a good leg is given:
// it is flown within its corridors but for a moment here and there (common practice, no source).
const (
	mostWords       = 5
	mostCorrections = 2
)

// audit holds what was heard in a flight to the rules. It returns its part of the table and what is wrong.
func (f *flight) audit() (table string, wrong []string) {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", f.name)
	for _, h := range f.heard {
		if h.Kind == coach.SetUpSaid {
			continue
		}
		line, found := f.row(h)
		line = strings.TrimRight(line, " ")
		fmt.Fprintln(&b, line)
		if n := len(strings.Fields(h.Words)); n > mostWords && h.Kind != coach.NextTime {
			found = append(found, fmt.Sprintf("%d words", n))
		}
		if len(found) > 0 {
			wrong = append(wrong, line+"  WRONG: "+strings.Join(found, "; "))
		}
	}
	for _, k := range f.called {
		if k.Kind == coach.After && k.Words != "" {
			wrong = append(wrong, fmt.Sprintf("%q is said of a point that was passed", k.Words))
		}
	}
	for _, e := range f.unheard() {
		wrong = append(wrong, e.String())
	}
	wrong = append(wrong, f.surprised()...)
	return b.String(), append(wrong, f.nagged()...)
}

// warned is how long before the stall is alerted it must have been said to be near, s: time to ease the pull. A sudden
// pull is not foreseen: one with more than slowly, kt, in hand half a second before the words were due. Nor is what
// comes once the turn is over: the wings are level, and the talk is of the recovery.
const (
	warned = 1.0
	slowly = 5.0
	overAt = 5.0 // ° before the end
)

// surprised returns the legs in which the alert of a stall came without a word before.
func (f *flight) surprised() (wrong []string) {
	for i, l := range f.legs {
		for _, k := range f.called {
			if k.Kind != coach.Safety || k.ID != coach.LimitStall || k.Time < l.Start || k.Time > l.End {
				continue
			}
			s := f.at(k.Time - warned - 0.5)
			margin := s.speed - aero.StallSpeed(f.plan.Aircraft.Stall, max(s.load, 0.25))
			if margin > slowly || k.Turn > f.plan.Card.Turn-overAt {
				break
			}
			if !slices.ContainsFunc(f.heard, func(h *heard) bool {
				easing := slices.ContainsFunc(f.asksOf(h), func(a callout.Ask) bool {
					return a == callout.Push || a == callout.NoseDown
				})
				return easing && h.begun >= k.Time-grew && h.begun <= k.Time-warned
			}) {
				wrong = append(wrong, fmt.Sprintf("leg %d stalls at %.1f s, and nothing was said before", i+1, k.Time))
			}
			break
		}
	}
	return wrong
}

// nagged returns what is wrong with how much is said in a good flight.
func (f *flight) nagged() (wrong []string) {
	if !f.good {
		return nil
	}
	for i, l := range f.legs {
		n := 0
		for _, h := range f.heard {
			switch in := h.begun >= l.Start && h.begun <= l.End; {
			case in && h.Kind == coach.Watch:
				n++
			case in && h.Kind == coach.Safety:
				wrong = append(wrong, fmt.Sprintf("%q is said in a good leg", h.Words))
			}
		}
		if n > mostCorrections {
			wrong = append(wrong, fmt.Sprintf("%d corrections in leg %d, a good one", n, i+1))
		}
	}
	return wrong
}

// report fails the test with what is wrong in a flight, and returns its part of the table.
func (f *flight) report(t *testing.T) string {
	t.Helper()
	table, wrong := f.audit()
	for _, w := range wrong {
		t.Errorf("%s: %s", f.name, w)
	}
	return table
}

// golden holds a table to its file.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); d != "" {
		t.Errorf("what is heard has changed; if it should, read it after go test -update:\n%s", d)
	}
}

// The table of the recorded flights. The columns: when it is begun; where its last word ends; what is said; bank and
// nose there, in brackets the aims there and a little later; what it asks.
func TestRecordedFlights(t *testing.T) {
	var b strings.Builder
	all := labels(t)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		file := filepath.Join(recorded, name+".pcap.gz")
		if _, err := os.Stat(file); err != nil {
			continue
		}
		b.WriteString(flyRecording(t, callout.PromptsAll, file, name, all[name]).report(t))
	}
	golden(t, "recorded", b.String())
}

// The trainer's flaws in every maneuver, clear in each airplane, which the tables hold, and at the other strengths in
// one of them, to one side: that way each flaw is flown in both airplanes and at every strength.
func TestTrainerFlaws(t *testing.T) {
	for airplane, besides := range map[string][2]string{
		"light-single": {"mild", "right"}, "turboprop-trainer": {"medium", "left"},
	} {
		t.Run(airplane, func(t *testing.T) {
			t.Parallel()
			var b strings.Builder
			for _, maneuver := range trainer.Maneuvers() {
				for _, flaw := range append([]string{""}, trainer.FlawsOf(maneuver)...) {
					w := trainer.Flight{Maneuver: maneuver, Airplane: airplane, Flaw: flaw, Seed: 3}
					w.Direction, w.Strength = "both", "clear"
					if flaw == "" {
						w.Strength = "medium"
					}
					b.WriteString(flyTrainer(t, callout.PromptsAll, w).report(t))
					w.Strength = besides[0]
					if flaw != "same-direction" { // that takes a leg to each side
						w.Direction = besides[1]
					}
					if flaw != "" {
						flyTrainer(t, callout.PromptsAll, w).report(t)
					}
				}
			}
			golden(t, airplane, b.String())
		})
	}
}

// More recordings, with their labels; they are not in the repository.
func TestMoreRecordings(t *testing.T) {
	if *recordings == "" {
		t.Skip("no -recordings")
	}
	data, err := os.ReadFile(filepath.Join(*recordings, "flights.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all struct{ Flights map[string]label }
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	lib, err := library()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(all.Flights)) {
		l := all.Flights[name]
		if _, err := lib.Card(l.Maneuver); err != nil {
			continue
		}
		file := filepath.Join(*recordings, name+".pcap.gz")
		b.WriteString(flyRecording(t, callout.PromptsAll, file, name, l).report(t))
	}
	t.Log("\n" + b.String())
}
