package kinds_test

import (
	"strings"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/stream"
)

func TestBallCentered(t *testing.T) {
	quarter := with(over("ball-centered", "slip", 0, 180), func(k *check.Spec) { k.Within = 0.25 })
	ball := func(at ...float64) map[stream.Channel]signal { return one(stream.Ball, corners(at...)) }
	for _, r := range []row{
		{name: "in the middle", check: quarter, flight: flight{signals: ball(0, 0.1, 180, -0.1)}, want: 1, at: 0},
		{
			name:   "half the time, by hand",
			check:  quarter,
			flight: flight{signals: ball(0, 0, 90, 0, 90.001, 1, 180, 1)},
			want:   0.5,
			within: 0.001,
			at:     90,
		},
		{
			name:   "worst at 120°",
			check:  quarter,
			flight: flight{signals: ball(0, 0.3, 60, 0.3, 120, -0.9, 150, 0, 180, 0)},
			want:   (12.5*2 + 25.0/3 + 30) / 180,
			within: 0.002,
			at:     120,
		},
		{
			name:   "from the lateral load",
			check:  quarter,
			flight: flight{signals: one(stream.LateralLoad, corners(0, 0, 90, 0, 90.001, 0.03, 180, 0.03))},
			want:   0.5,
			within: 0.001,
			at:     90,
		},
		{
			name:   "from the sideslip",
			check:  quarter,
			flight: flight{signals: one(stream.Sideslip, corners(0, 0.9, 90, 0.9, 90.001, 1.1, 180, 1.1))},
			want:   0.5,
			within: 0.001,
			at:     90,
		},
		{name: "none of them", check: quarter, reason: "no ball, lateral load or sideslip"},
	} {
		r.run(t)
	}
}

// Ball to the inside is a slip, to the outside a skid, and the pedal on the ball's side is
// pressed (Pilot's Handbook of Aeronautical Knowledge; Instrument Flying Handbook). Right
// rudder rises as the speed falls with a clockwise propeller (Airplane Flying Handbook, ch. 10, chandelle). left is a
// turn to the left; ball, airspeed and roll are as the stream has them at the worst moment, at 90°.
func TestWhichRudder(t *testing.T) {
	quarter := with(over("ball-centered", "slip", 0, 180), func(k *check.Spec) { k.Within = 0.25 })
	for _, c := range []struct {
		name           string
		left           bool
		ball           float64
		slow           bool
		roll           float64 // toward the turn
		rotation, jets string
		want           []string
		not            string
	}{
		{
			name: "right turn, ball right",
			ball: 0.5,
			want: []string{"at 90°: slip", "half its width to the right", "more right rudder"},
			not:  "propeller",
		},
		{
			name: "right turn, ball left",
			ball: -1,
			want: []string{"skid", "its width to the left", "more left rudder"},
			not:  "propeller",
		},
		{
			name: "left turn, ball left",
			left: true,
			ball: -0.3,
			want: []string{"slip", "a quarter of its width to the left", "more left rudder"},
			not:  "propeller",
		},
		{
			name: "left turn, ball right",
			left: true,
			ball: 2.04,
			want: []string{"skid", "2.0 widths to the right", "more right rudder"},
			not:  "propeller",
		},
		{
			name:     "climbing right turn, slow",
			ball:     0.8,
			slow:     true,
			roll:     3,
			rotation: "clockwise",
			jets:     "propeller",
			want: []string{
				"more right rudder. The propeller asks for more right rudder as the speed falls, " +
					"most in climbing turns to the right",
			},
			not: "lot of",
		},
		{
			name:     "the same, fast",
			ball:     0.8,
			roll:     3,
			rotation: "clockwise",
			jets:     "propeller",
			want:     []string{"three quarters", "more right rudder"},
			not:      "propeller",
		},
		{"the same, a jet", false, 0.8, true, 3, "clockwise", "jet", []string{"more right rudder"}, "propeller"},
		{
			name:     "rolling out of a left turn, slow",
			left:     true,
			ball:     0.8,
			slow:     true,
			roll:     -5,
			rotation: "clockwise",
			jets:     "propeller",
			want:     []string{"skid", "more right rudder. Rolling out of this side takes a lot of right rudder"},
			not:      "climbing turns",
		},
		{
			name:     "left turn, slow",
			left:     true,
			ball:     0.8,
			slow:     true,
			rotation: "clockwise",
			jets:     "propeller",
			want:     []string{"asks for right rudder as the speed falls, also in this turn"},
			not:      "lot of",
		},
		{
			name:     "right turn, too much held",
			ball:     -0.8,
			slow:     true,
			rotation: "clockwise",
			want:     []string{"skid", "more left rudder. Ease the right rudder"},
			not:      "asks for",
		},
		{
			name:     "the mirror",
			left:     true,
			ball:     -0.8,
			slow:     true,
			roll:     3,
			rotation: "counterclockwise",
			jets:     "propeller",
			want: []string{
				"slip",
				"more left rudder. The propeller asks for more left rudder as the speed falls, " +
					"most in climbing turns to the left",
			},
			not: "right",
		},
		{"no propeller", false, 0.8, true, 3, "none", "", []string{"more right rudder"}, "propeller"},
	} {
		side := 1.0
		if c.left {
			side = -1
		}
		f := flight{
			left:  c.left,
			facts: check.Facts{Side: side, Aircraft: aircraft.Aircraft{Rotation: c.rotation, Engine: c.jets}},
			signals: map[stream.Channel]signal{
				stream.Ball:     corners(0, 0, 80, 0, 90, c.ball*side, 100, 0, 180, 0), // turned round by the flight
				stream.RollRate: constant(c.roll),
				stream.Airspeed: func(turn float64) float64 {
					if c.slow {
						return 120 - turn/3
					}
					return 120
				}},
		}
		got := f.measure(quarter)
		for _, w := range c.want {
			if !strings.Contains(got.Note.String(), w) {
				t.Errorf("%s: %q does not say %q", c.name, got.Note, w)
			}
		}
		if c.not != "" && strings.Contains(got.Note.String(), c.not) {
			t.Errorf("%s: %q says %q", c.name, got.Note, c.not)
		}
	}
	calm := flight{signals: one(stream.Ball, constant(0.2))}
	if got := calm.measure(quarter); !got.Note.IsZero() {
		t.Errorf("a ball in the middle: %q", got.Note)
	}
}
