package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

func TestRollRatio(t *testing.T) {
	ratio := &check.Spec{Kind: "roll-ratio"}
	for _, r := range []row{
		{
			name:   "even",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 120, 60, 180, 0))},
			want:   1,
			within: 0.01,
			at:     none,
		},
		{
			name:   "out twice as fast",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 150, 60, 180, 0))},
			want:   0.5,
			within: 0.02,
			at:     none,
		},
		{
			name:   "in twice as fast",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, corners(0, 0, 30, 60, 120, 60, 180, 0)), left: true},
			want:   2,
			within: 0.06,
			at:     none,
		},
		{
			name:   "out of a bank at the entry",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, corners(0, 8, 30, 8, 82, 60, 120, 60, 180, 0))},
			want:   56.0 / 47.5,
			within: 0.01,
			at:     none,
		},
		{
			name:   "past the vertical",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, corners(0, 0, 80, 120, 100, 120, 180, 0))},
			want:   1,
			within: 0.03,
			at:     none,
		},
		{
			name:   "hardly a bank",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, corners(0, 0, 90, 9, 180, 0))},
			reason: "no roll-in",
		},
		{
			name:   "bank away from the turn",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, constant(-40))},
			reason: "no roll-in",
		},
		{
			name:   "no exit",
			check:  ratio,
			flight: flight{signals: one(stream.Bank, constant(40)), noExit: true},
			reason: "no exit",
		},
		{name: "no bank", check: ratio, reason: "no bank"},
	} {
		r.run(t)
	}
}

// After a pull with the wings level, rolls of 6 s to 60° and back, even or in half the time out, are what they are
// without it, whichever way the hand is off in the pull; so are the pace, and the rhythm of quarters of 10, 5, 6 and 9
// s.
func TestPullBeforeTheRoll(t *testing.T) {
	quarters := corners(0, 0, 10, 45, 15, 90, 21, 135, 30, 180)
	for _, pull := range []float64{0, 3, 8} {
		for _, held := range []float64{0, 1.5, -2} { // ° of bank in the pull
			for _, c := range []struct {
				check *check.Spec
				bank  signal // by the time since the roll began
				want  float64
			}{
				{&check.Spec{Kind: "roll-ratio"}, corners(0, 0, 6, 60, 24, 60, 30, 0), 1},
				{&check.Spec{Kind: "roll-ratio"}, corners(0, 0, 6, 60, 27, 60, 30, 0), 0.5},
				{&check.Spec{Kind: "pace"}, corners(0, 0, 6, 60, 24, 60, 30, 0), 1.5},
				{over("rhythm", "", 0, 180), corners(0, 0, 6, 60, 24, 60, 30, 0), 2},
			} {
				facts := check.Facts{Duration: 20}
				facts.Entry.Sample.Put(stream.Time, begin)
				facts.Entry.Sample.Put(stream.Bank, held)
				j := kinds.NewJudge(c.check, &facts)
				var m check.Moment
				for i := 0; float64(i) <= (pull+30)*50; i++ {
					t := float64(i)/50 - pull
					m.Turn = quarters(math.Max(0, t))
					m.Sample.Put(stream.Time, begin+float64(i)/50)
					m.Sample.Put(stream.Bank, math.Max(c.bank(math.Max(0, t)), held*math.Min(1, math.Max(0, -t))))
					j.Step(&m)
				}
				if got := j.Measure(&m); !got.OK || math.Abs(got.Value-c.want) > 0.05*c.want {
					t.Errorf("%s after %g s at %g° of bank: %+v, want %g", c.check.Kind, pull, held, got, c.want)
				}
			}
		}
	}
}
