package debrief

import (
	"testing"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

func legOf(number int, side string, score, nose float64, cause string) coach.Leg {
	l := coach.Leg{Number: number, Direction: side, Outcome: coach.Finished, Score: score,
		Change: phrase.Plain(cause + "!"),
		Checks: []coach.Check{
			checkOf("highest-nose", "Highest nose", "°", coach.Missed, nose, score, ptr(18), ptr(26), ""),
		}}
	if cause != "" {
		l.Causes = []coach.Cause{{ID: cause}}
	}
	return l
}

// Worked out by hand: three legs of one maneuver, the last broken off.
func TestSummarize(t *testing.T) {
	off := legOf(1, "right", 99, 22, "abandoned")
	off.Outcome = coach.BrokenOff
	s := Summarize([]coach.Series{
		{
			Maneuver: "wing-over",
			Legs: []coach.Leg{
				legOf(1, "right", 60, 33, "nose-too-high"),
				legOf(2, "left", 70, 31, "nose-too-high"),
			},
		},
		{Maneuver: "wing-over", Legs: []coach.Leg{legOf(1, "right", 90, 25, "entry-slow"), off}},
	})
	if s.Legs != 4 || s.Finished != 3 || s.Best != (Best{2, 1, "right", 90}) {
		t.Errorf("%+v", s)
	}
	if s.Cause != "nose-too-high" || s.Times != 2 || s.Change.String() != "nose-too-high!" {
		t.Errorf("%+v", s)
	}
	if len(s.Trend) != 1 || s.Trend[0].First != 33 || s.Trend[0].Last != 25 || s.Trend[0].Way != "better" {
		t.Errorf("%+v", s.Trend)
	}
	if len(s.Symmetry) != 1 || s.Symmetry[0] != (Sides{"wing-over", 75, 70}) {
		t.Errorf("%+v", s.Symmetry)
	}
	// A leg in which nothing was measured has no score, and does not count against its side.
	blind := legOf(2, "left", 0, 22, "")
	blind.Verdict = coach.NotMeasured
	s = Summarize([]coach.Series{
		{Maneuver: "wing-over", Legs: []coach.Leg{legOf(1, "right", 80, 22, ""), legOf(2, "left", 70, 22, ""), blind}},
	})
	if len(s.Symmetry) != 1 || s.Symmetry[0] != (Sides{"wing-over", 80, 70}) {
		t.Errorf("with a leg that was not judged: %+v", s.Symmetry)
	}
	s = Summarize([]coach.Series{{Maneuver: "wing-over", Legs: []coach.Leg{legOf(1, "right", 80, 22, ""), blind}}})
	if len(s.Symmetry) != 0 {
		t.Errorf("with nothing judged to the left: %+v", s.Symmetry)
	}
	dim := legOf(1, "right", 0, 22, "")
	dim.Verdict = coach.NotMeasured
	if s := Summarize([]coach.Series{
		{Maneuver: coach.Unclear, Legs: []coach.Leg{dim}},
	}); s.Finished != 1 || s.Best != (Best{}) {
		t.Errorf("of a leg that was not judged: %+v", s)
	}
	if Summarize(nil) != nil {
		t.Error("nothing flown has no summary")
	}
}
