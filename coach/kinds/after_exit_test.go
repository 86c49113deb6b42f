package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

// after is a flight with a recovery of five seconds.
func after(c stream.Channel, at ...float64) flight {
	return flight{recovery: 5, signals: one(c, corners(at...))}
}

// The signals go on after the exit at 180°, 6° to the second.
func TestAfterExit(t *testing.T) {
	low := with(&check.Spec{Kind: "after-exit", Channel: "altitude"}, lowest)
	high := with(&check.Spec{Kind: "after-exit", Channel: "airspeed"}, highest)
	keep := &check.Spec{Kind: "kept", Channel: "airspeed", Within: 5}
	for _, r := range []row{
		{
			name:   "climbing on",
			check:  low,
			flight: flight{recovery: 5, signals: one(stream.Altitude, line(5000, 1))},
			at:     none,
		},
		{
			name:   "80 ft lost, and regained",
			check:  low,
			flight: after(stream.Altitude, 0, 5000, 180, 5500, 195, 5420, 210, 5600),
			want:   -80,
			at:     none,
			within: 1, // a sample may miss the corner
		},
		{
			name:   "lower before the exit does not count",
			check:  low,
			flight: after(stream.Altitude, 0, 5000, 180, 5500, 210, 5500),
			at:     none,
		},
		{
			name:   "12 kt faster",
			check:  high,
			flight: after(stream.Airspeed, 0, 100, 180, 55, 210, 67),
			want:   12,
			at:     none,
			within: 0.1,
		},
		{
			// 12 kt in 30°: 5 kt after 12.5°, which take 2.08 s.
			name:   "5 kt kept for two seconds",
			check:  keep,
			flight: after(stream.Airspeed, 0, 100, 180, 55, 210, 67),
			want:   12.5 / pace,
			at:     none,
			within: 0.03,
		},
		{
			name:   "kept to the end",
			check:  keep,
			flight: after(stream.Airspeed, 0, 100, 180, 55, 210, 57),
			want:   5,
			at:     none,
			within: 0.001,
		},
		{
			name:   "left, and come back to",
			check:  keep,
			flight: after(stream.Airspeed, 0, 100, 180, 55, 186, 65, 192, 55, 210, 55),
			want:   0.5,
			at:     none,
			within: 0.03,
		},
		{
			name:   "no recovery",
			check:  low,
			flight: flight{signals: one(stream.Altitude, line(5000, 1))},
			reason: "after the exit was not seen",
		},
		{
			name:   "no recovery to keep a speed in",
			check:  keep,
			flight: flight{signals: one(stream.Airspeed, line(100, -0.1))},
			reason: "after the exit was not seen",
		},
		{name: "no channel", check: low, flight: flight{recovery: 5}, reason: "no altitude"},
		{name: "no channel to keep", check: keep, flight: flight{recovery: 5}, reason: "no airspeed"},
	} {
		r.run(t)
	}
}

// Wings that come level and leave again were no exit: what is counted from there is forgotten.
func TestAfterExitStartsAgain(t *testing.T) {
	f := flight{recovery: 5, signals: map[stream.Channel]signal{
		stream.Altitude: corners(0, 5000, 170, 5600, 180, 5500, 210, 5490),
		stream.Airspeed: constant(55),
	}}
	for _, c := range []struct {
		check *check.Spec
		want  float64
	}{
		{with(&check.Spec{Kind: "after-exit", Channel: "altitude"}, lowest), -10},
		{&check.Spec{Kind: "kept", Channel: "airspeed", Within: 5}, 5},
	} {
		j := kinds.NewJudge(c.check, f.known())
		m := f.moments(c.check)
		for i := range m {
			if m[i].Turn > 168 && m[i].Turn < 174 {
				m[i].Out = (m[i].Turn - 168) / pace
			}
			j.Step(&m[i])
		}
		if got := j.Measure(&m[len(m)-1]); !got.OK || got.Value < c.want-0.01 || got.Value > c.want+0.01 {
			t.Errorf("%s: %+v; must be %g", c.check.Kind, got, c.want)
		}
	}
}
