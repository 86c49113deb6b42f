package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

func TestDeparture(t *testing.T) {
	throttle := func(at ...float64) flight { return flight{signals: one(stream.Throttle, corners(at...))} }
	power := &check.Spec{Kind: "departure", Channel: "power"}
	for _, r := range []row{
		{name: "none", check: power, flight: flight{signals: one(stream.Throttle, constant(0.6))}, want: 0, at: 0},
		{
			name:   "taken off and put back",
			check:  power,
			flight: throttle(0, 0.6, 100, 0.6, 110, 0.5, 120, 0.6),
			want:   -0.1,
			within: 0.002,
			at:     110,
		},
		{
			name:   "more above than below",
			check:  power,
			flight: throttle(0, 0.6, 50, 0.55, 100, 0.68, 180, 0.6),
			want:   0.08,
			within: 0.002,
			at:     100,
		},
		{
			name:   "only in its span",
			check:  over("departure", "altitude", 0, 90),
			flight: flight{signals: one(stream.Altitude, line(5000, -1)), rate: 6},
			want:   -90,
			at:     90,
		},
		{
			name:   "from where its span begins",
			check:  over("departure", "altitude", 20, 90),
			flight: flight{signals: one(stream.Altitude, line(5000, -1)), rate: 6},
			want:   -70,
			at:     90,
		},
		{
			name:   "past the turn",
			check:  power,
			flight: flight{signals: one(stream.Throttle, corners(0, 0.6, 190, 0.6, 200, 0.9)), end: 200},
			want:   0.3,
			within: 1e-6,
			at:     200,
		},
		{name: "no channel", check: power, reason: "no power"},
	} {
		r.run(t)
	}
	// Not there at the entry, there later: from the first moment that has it.
	f := flight{signals: one(stream.Throttle, line(0.5, 0.001))}
	facts := f.known()
	facts.Entry.Sample.Drop(stream.Throttle)
	j := kinds.NewJudge(power, facts)
	for turn := 10.0; turn <= 110; turn += 10 {
		m := f.moment(turn)
		j.Step(&m)
	}
	if got := j.Measure(nil); !got.OK || math.Abs(got.Value-0.1) > 1e-9 || got.At != 110 {
		t.Errorf("no power at the entry: %+v", got)
	}
}
