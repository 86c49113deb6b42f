package session_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
	"halfturn/stream/streamtest"
)

var recordings = flag.String("recordings", "", "folder of more recordings with labels in its file flights.json")

// A label says what the pilot of a recorded flight was asked to fly wrong. It is part of the recording, not derived
// from what the coach makes of it.
type label struct {
	Aircraft string
	Maneuver string
	Kind     string // of flaw; "good" is none
	Leg      any    // the number of the leg with the flaw, several of them, or a word for all
	Strength string
	Intended string // in free text, where there is no kind
}

// kinds are the labels in free text, and the leg they speak of.
var labelKinds = map[string]label{
	"wing-over-turboprop-a-overbanked":          {Kind: "overbanked", Leg: 1.0},
	"wing-over-jet-shallow":                     {Kind: "underbanked", Leg: "both"},
	"wing-over-turboprop-a-nose-high":           {Kind: "nose-too-high", Leg: 1.0},
	"wing-over-turboprop-a-rollout-late":        {Kind: "rolled-out-late", Leg: 1.0},
	"wing-over-turboprop-a-height-lost":         {Kind: "height-lost", Leg: 1.0},
	"wing-over-turboprop-a-power-changed":       {Kind: "power-added", Leg: 1.0},
	"wing-over-jet-abandoned":                   {Kind: "abandoned", Leg: 1.0},
	"chandelle-traditional-turboprop-a-stalled": {Kind: "nose-too-high", Leg: 1.0},
}

// labelCauses are the causes that name a flaw, where they are not called what the label calls it.
var labelCauses = map[string][]string{
	"feet-on-floor":  {"slip-or-skid"},
	"uneven-shallow": {"uneven", "underbanked"},
	"uneven-steep":   {"uneven", "overbanked"},
	"nose-too-high":  {"nose-too-high", "stalled"},
	"altitude-lost":  {"height-lost"},
	"two-turns":      {"too-few-turns"},
}

// labels reads the labels of a folder of recordings and of its subfolders, by path without the ending.
func labels(t *testing.T, dir string) map[string]label {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*", "flights.json"))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]label{}
	for _, file := range append(files, filepath.Join(dir, "flights.json")) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var index struct{ Flights map[string]label }
		if err := json.Unmarshal(data, &index); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for name, l := range index.Flights {
			if known, ok := labelKinds[name]; ok {
				l.Kind, l.Leg = known.Kind, known.Leg
			} else if l.Kind == "" {
				if !strings.Contains(l.Intended, "good") {
					t.Fatalf("%s: the label %q has no kind", name, l.Intended)
				}
				l.Kind = "good"
			}
			all[filepath.Join(filepath.Dir(file), name)] = l
		}
	}
	return all
}

// gradeLabeled grades a recording by the numbers of its own aircraft.
func gradeLabeled(t *testing.T, lib *maneuver.Library, path string, l label) []coach.Series {
	t.Helper()
	card, err := lib.Card(l.Maneuver)
	if err != nil {
		t.Fatal(err)
	}
	plane := *models[l.Aircraft]
	plane.Speeds = map[string]aircraft.Speeds{
		"chandelle-traditional": plane.Speeds["chandelle-traditional"],
	}
	switch {
	case l.Aircraft == "single-a" && l.Maneuver == "lazy-eight":
		plane.Speeds["lazy-eight"] = aircraft.Speeds{Entry: 100}
	case filepath.Base(path) == "wing-over-turboprop-a-nose-high":
		plane.Entry = 190
	}
	s := session.New(session.Options{
		Name:    "seat",
		Address: "127.0.0.1:1",
		Coach:   judge.Options{Plan: plan.New(card, &plane)},
	})
	for _, d := range streamtest.Read(t, path+".pcap.gz") {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("the recording ended"))
	return s.Report().Series
}

// speaksOf reports whether the flaw is in a leg.
func (l *label) speaksOf(leg int) bool {
	switch of := l.Leg.(type) {
	case float64:
		return int(of) == leg
	case []any:
		return slices.Contains(of, any(float64(leg)))
	}
	return true
}

// rankOf is the place of the intended cause in the leg that has it, or in the series: 1 is the first, 0 none. causes
// lists what was named.
func rankOf(list []coach.Series, l label) (rank int, causes []string) {
	want := labelCauses[l.Kind]
	if want == nil {
		want = []string{l.Kind}
	}
	place := func(of []coach.Cause) {
		for i, c := range of {
			causes = append(causes, named(c))
			if slices.Contains(want, c.ID) && (rank == 0 || i+1 < rank) {
				rank = i + 1
			}
		}
	}
	n := 0
	for i := range list {
		for j := range list[i].Legs {
			n++
			if l.speaksOf(n) {
				place(list[i].Legs[j].Causes)
				causes = append(causes, ";")
			}
		}
		causes = append(causes, "together:")
		place(list[i].Causes)
	}
	return rank, causes
}

func named(c coach.Cause) string {
	if c.Minor {
		return "(" + c.ID + ")"
	}
	return c.ID
}

// clearCauses lists the causes above minor of a flight.
func clearCauses(list []coach.Series) (causes []string) {
	for i := range list {
		all := slices.Clone(list[i].Causes)
		for j := range list[i].Legs {
			all = append(all, list[i].Legs[j].Causes...)
		}
		for _, c := range all {
			if !c.Minor {
				causes = append(causes, fmt.Sprintf("%s (%s)", c.ID, c.Evidence))
			}
		}
	}
	return causes
}

// TestLabeledFlights: the flaw that a pilot was asked to fly is the first cause named or the second in 95 of 100
// flights, and 95 of 100 good ones have no cause above minor.
func TestLabeledFlights(t *testing.T) {
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	folders := []string{flights}
	if *recordings != "" {
		folders = append(folders, *recordings)
	}
	for _, dir := range folders {
		var flawed, found, good, quiet int
		all := labels(t, dir)
		for _, path := range slices.Sorted(func(yield func(string) bool) {
			for path := range all {
				if !yield(path) {
					return
				}
			}
		}) {
			l := all[path]
			if _, err := lib.Card(l.Maneuver); err != nil {
				continue // not a maneuver of the shipped cards
			}
			list := gradeLabeled(t, lib, path, l)
			name := filepath.Base(path)
			if l.Kind == "good" {
				good++
				causes := clearCauses(list)
				if len(causes) == 0 {
					quiet++
				} else {
					t.Logf("%-45s good, but %s", name, strings.Join(causes, "; "))
				}
				continue
			}
			flawed++
			rank, causes := rankOf(list, l)
			if rank == 1 || rank == 2 {
				found++
			}
			t.Logf("%-45s %-18s %d: %s", name, l.Kind, rank, strings.Join(causes, " "))
		}
		t.Logf("%s: %d of %d flaws are first or second, %d of %d good flights have no clear cause", dir, found, flawed,
			quiet, good)
		if flawed < 8 || float64(found) < 0.95*float64(flawed) {
			t.Errorf("%d of %d flaws are first or second; must be 95 of 100", found, flawed)
		}
		if good < 4 || float64(quiet) < 0.95*float64(good) {
			t.Errorf("%d of %d good flights have no clear cause; must be 95 of 100", quiet, good)
		}
	}
}
