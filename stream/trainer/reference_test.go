package trainer

import (
	"testing"

	"halfturn/coach/aero"
	"halfturn/stream"
	"halfturn/stream/trainer/airplane"
)

// Two models written apart must agree: the coach's reference path, which follows a program in the
// turn angle, and this airplane, flown in time by a pilot who sees only attitude and heading.
func TestReferencePathForesaysTheFlight(t *testing.T) {
	program := aero.Program{Turn: 180, Knots: []aero.Knot{{Turn: 45, Bank: 45, Nose: 1}, {Turn: 90, Bank: 75},
		{Turn: 135, Bank: 45, Nose: -1}}}
	for _, name := range airplane.Names() {
		a, _ := airplane.Named(name)
		ms, _ := flyOne(t, Flight{Airplane: name, Direction: "right", Steady: true})
		craft := aero.Airplane{Stall: a.Stall, LiftToDrag: a.LiftToDrag, MinDrag: a.Glide, Engine: engine(a)}
		entry := aero.Entry{Airspeed: a.Entry, Altitude: 6000}
		solution, err := aero.Regain(program, craft, entry, a.Apex, 0)
		if err != nil {
			t.Fatal(err)
		}
		path := solution.Path
		within(t, name+": highest nose over the reference path's", ms[0].highest-path.Nose, -2, 2)
		for _, turn := range []int{45, 60, 75, 90, 105} {
			s, q := ms[0].at[turn], path.At(float64(turn))
			within(t, name+": airspeed over the reference path's", s.Value(stream.Airspeed)-q.Airspeed, -6, 6)
			within(t, name+": height over the reference path's", (s.Value(stream.Altitude)-6000)/q.Height, 0.8, 1.1)
			within(t, name+": time over the reference path's", (s.Value(stream.Time)-ms[0].start)/q.Time, 0.85, 1.15)
		}
	}
}

func engine(a airplane.Airplane) aero.Engine {
	if a.Fall == 0 {
		return aero.Jet
	}
	return aero.Propeller
}
