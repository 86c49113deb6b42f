package debrief_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
)

func TestCompare(t *testing.T) {
	value := func(x float64) *float64 { return &x }
	graded := func(standard, verdict string, low float64, starts ...float64) []debrief.StationReport {
		s := coach.Series{Maneuver: "wing-over", Standard: standard}
		for _, at := range starts {
			s.Legs = append(
				s.Legs,
				coach.Leg{Start: at, End: at + 20, Verdict: verdict, Outcome: coach.Finished, Score: 80,
					Checks: []coach.Check{
						{
							ID:      "bank-at-90",
							Label:   "bank at 90°",
							Value:   value(70),
							Unit:    "°",
							Verdict: verdict,
							Met:     [2]*float64{value(low), value(90)},
						},
					}},
			)
		}
		return []debrief.StationReport{{Station: "seat", Series: []coach.Series{s}}}
	}
	course := graded("course", coach.Met, 60, 10, 50)
	if got := debrief.Compare(course, graded("course", coach.Met, 60, 10, 50)); len(got) != 0 {
		t.Errorf("the same grading differs: %v", got)
	}
	whats := func(list []debrief.Difference) (all []string) {
		for _, d := range list {
			all = append(all, d.What)
		}
		return all
	}
	got := debrief.Compare(course, graded("check", coach.Near, 72, 10.2))
	if diff := cmp.Diff([]string{"standard", "verdict", "bank-at-90", "leg"}, whats(got)); diff != "" {
		t.Error(diff)
	}
	var b strings.Builder
	if err := text.Differences(&b, got, nil); err != nil || !strings.Contains(
		b.String(),
		"* leg 1  verdict: was met; is near",
	) {
		t.Errorf("%v\n%s", err, b.String())
	}

	// What was not measured has no score that another could differ from.
	blind := graded("course", coach.NotMeasured, 60, 10, 50)
	blind[0].Series[0].Legs[0].Score = 0
	b.Reset()
	if err := text.Differences(&b, debrief.Compare(course, blind), nil); err != nil || !strings.Contains(
		b.String(),
		"leg 1  score: was 80; is none",
	) {
		t.Errorf("%v\n%s", err, b.String())
	}
}
