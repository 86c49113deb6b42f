package cause_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/derive"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

// shows is the cause that each flaw of the built-in pilot should be found as.
var shows = map[string]string{
	"late-nose":      "nose-peak-late",
	"overbanked":     "overbanked",
	"shallow":        "underbanked",
	"early-rollout":  "rolled-out-early",
	"late-rollout":   "rolled-out-late",
	"height-lost":    "height-lost",
	"power-changed":  "power-added",
	"feet-off":       "slip-or-skid",
	"abandoned":      "abandoned",
	"nose-high":      "nose-too-high",
	"same-direction": "same-direction",
}

// plans are those of the shipped cards, by maneuver and airplane: to predict a flight takes a quarter of what it takes
// to fly it.
var plans = map[[2]string]*plan.Plan{}

// fly flies a flight of the built-in aircraft and coaches it by the shipped cards.
func fly(t *testing.T, lib *maneuver.Library, f trainer.Flight) []coach.Series {
	t.Helper()
	key := [2]string{f.Maneuver, f.Airplane}
	if plans[key] == nil {
		card, err := lib.Card(f.Maneuver)
		if err != nil {
			t.Fatal(err)
		}
		plane, err := lib.AircraftNamed(f.Airplane)
		if err != nil {
			t.Fatal(err)
		}
		plans[key] = plan.New(card, plane)
	}
	return flyBy(t, plans[key], f)
}

// flyBy flies flights of the built-in aircraft, one after the other, and coaches them by a plan.
func flyBy(t *testing.T, by *plan.Plan, flights ...trainer.Flight) []coach.Series {
	t.Helper()
	return flyWith(t, judge.Options{Plan: by, Explain: cause.Explainer{}}, flights...)
}

// rehearsed is what pilots have found out by flying before: many fly the same leg.
var rehearsed trainer.Rehearsals

// flyWith is flyBy with other options.
func flyWith(t *testing.T, o judge.Options, flights ...trainer.Flight) []coach.Series {
	t.Helper()
	pilot, err := rehearsed.NewSequence(flights...)
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(o)
	var s stream.Sample
	var derive derive.Deriver
	var list []coach.Series
	take := func() {
		for _, e := range c.Take() {
			if x, ok := e.(*coach.Series); ok {
				list = append(list, *x)
				readBack(t, x)
			}
		}
	}
	const longest = 400 * 30 // samples
	for n, more := 0, true; more && n < longest; n++ {
		more = pilot.Step(1.0/30, &s)
		derive.Fill(&s)
		c.Step(&s)
		take()
	}
	c.Break(phrase.Plain("the flight is over"))
	take()
	return list
}

// first is the first cause of the leg with the flaw, or of the series for what only that shows.
func first(list []coach.Series, flaw string) string {
	if len(list) == 0 || len(list[0].Legs) == 0 {
		return "no leg"
	}
	causes := list[0].Legs[0].Causes
	if flaw == "same-direction" {
		causes = list[0].Causes
	}
	if len(causes) == 0 {
		return "none"
	}
	return causes[0].ID
}

// TestTrainerFlaws flies each named flaw at three strengths, to both sides, in three airplanes:
// that cause comes first in at least nine of ten.
func TestTrainerFlaws(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range []string{"wing-over", "chandelle-civil", "chandelle-traditional"} {
		right, all, table := 0, 0, map[string]map[string][]string{}
		for _, flaw := range trainer.FlawsOf(m) {
			want, ok := expected(m, flaw)
			if !ok {
				continue
			}
			table[flaw] = map[string][]string{}
			for i, strength := range trainer.Strengths() {
				for _, side := range []string{"right", "left"} {
					for j, plane := range airplane.Names() {
						list := fly(
							t,
							lib,
							trainer.Flight{
								Maneuver:  m,
								Direction: side,
								Flaw:      flaw,
								Strength:  strength,
								Airplane:  plane,
								Seed:      uint64(3 + i + 3*j),
							},
						)
						got := first(list, flaw)
						if got == "none" && list[0].Legs[0].Verdict == coach.Met {
							continue // so mild that the standard lets it pass
						}
						all++
						if got == want {
							right++
						}
						table[flaw][got] = append(table[flaw][got], fmt.Sprintf("%s %s %s", strength, side, plane))
					}
				}
			}
		}
		t.Logf("%s: %d of %d first\n%s", m, right, all, confusion(m, table))
		if float64(right) < 0.9*float64(all) || all < 90 {
			t.Errorf("%s: the flaw flown comes first in %d of %d, want nine of ten", m, right, all)
		}
	}
}

// expected is the cause a flaw is in a maneuver; ok is false where the standard lets it pass.
func expected(m, flaw string) (want string, ok bool) {
	want, ok = shows[flaw]
	if m != "wing-over" {
		switch flaw {
		case "early-rollout":
			want = "level-before-180"
		case "same-direction": // each chandelle stands by itself
			return "", false
		}
	}
	if m == "chandelle-civil" {
		switch flaw {
		case "overbanked": // 30° set, then more: FAA-H-8083-3C p. 10-6 names it among the common errors
			want = "bank-grows"
		case "power-changed": // power is added at the start anyway; more of it is speed left over
			want = "too-fast-at-the-end"
		}
	}
	return want, ok
}

// confusion writes what came first by flaw, with the flights in which something else did.
func confusion(m string, table map[string]map[string][]string) string {
	var b strings.Builder
	for _, flaw := range slices.Sorted(maps.Keys(table)) {
		want, _ := expected(m, flaw)
		fmt.Fprintf(&b, "  %-15s", flaw)
		for _, id := range slices.Sorted(maps.Keys(table[flaw])) {
			fmt.Fprintf(&b, " %s %d", id, len(table[flaw][id]))
			if id != want {
				fmt.Fprintf(&b, " (%s)", strings.Join(table[flaw][id], ", "))
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// TestTrainerWell: what is flown well has no cause above minor.
func TestTrainerWell(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	flown := map[string]int{"wing-over": 2, "chandelle-civil": 2, "chandelle-traditional": 2, "lazy-eight": 2,
		"steep-turn": 2, "turn-pattern": 6, "steep-spiral": 1, "eights-on-pylons": 2}
	for m, want := range flown {
		for i, plane := range airplane.Names() {
			legs := 0
			for _, s := range fly(
				t,
				lib,
				trainer.Flight{Maneuver: m, Direction: "both", Airplane: plane, Seed: uint64(20 + i)},
			) {
				for _, l := range s.Legs {
					legs++
					for _, c := range l.Causes {
						if !c.Minor {
							t.Errorf("%s in %s, leg %d: %s: %s", m, plane, l.Number, c.ID, c.Evidence)
						}
					}
				}
			}
			if legs != want {
				t.Errorf("%s in %s: %d legs, want %d", m, plane, legs, want)
			}
		}
	}
}

// bareShare is a figure without a unit; smoothness, which has none, is below 0.
var bareShare = regexp.MustCompile(`: \d+(\.\d+)?, wanted`)

// readBack: a logbook keeps the English, and pages translate what is read out of that.
func readBack(t *testing.T, s *coach.Series) {
	t.Helper()
	causes := s.Causes
	for i := range s.Legs {
		causes = slices.Concat(causes, s.Legs[i].Causes)
	}
	for i := range causes {
		compareRead(t, causes[i].Evidence)
		if shown := causes[i].Evidence.String(); bareShare.MatchString(shown) {
			t.Errorf("%s: a share is not in percent: %s", causes[i].ID, shown)
		}
		compareRead(t, causes[i].Advice)
	}
}

func compareRead(t *testing.T, p phrase.Phrase) {
	t.Helper()
	is, err := json.Marshal(phrase.Read(p.String()))
	if err != nil {
		t.Fatal(err)
	}
	want, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	if string(is) != string(want) {
		t.Errorf("read back as\n%s, said as\n%s", is, want)
	}
}
