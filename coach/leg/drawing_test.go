package leg

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

// A trace has one entry per degree of turn, keeps its values as it grows, and ends a little past the full turn.
func TestDrawing(t *testing.T) {
	for _, c := range []struct {
		turn     float64
		from, to float64
		want     int
	}{
		{180, 0, 0, 1},
		{180, 0, 63, 64},
		{180, 0, 64, 65},
		{180, -5, 180, 186},
		{180, 0, 400, 241},
		{90, 0, 400, 151},
	} {
		var d drawing
		var f check.Facts
		f.Entry.Sample.Put(stream.Altitude, 5000)
		d.begin(c.turn)
		for turn := c.from; turn <= c.to; turn += 0.25 {
			m := check.Moment{Turn: turn}
			m.Sample.Put(stream.Time, turn)
			m.Sample.Put(stream.Airspeed, 100+turn)
			m.Sample.Put(stream.Altitude, 5000+2*turn)
			d.add(&m, &f)
		}
		if len(d.trace) != c.want {
			t.Errorf("from %g° to %g° of %g°: %d entries; must be %d", c.from, c.to, c.turn, len(d.trace), c.want)
		}
		for i := range d.trace {
			x := &d.trace[i]
			turn := c.from + float64(i)
			if x.Turn != turn || *x.Airspeed != 100+turn || *x.Height != 2*turn || x.Along != nil {
				t.Fatalf("entry %d is %+v, %g kt, %g ft; must be that of %g°", i, x, *x.Airspeed, *x.Height, turn)
			}
		}
	}
	var empty drawing
	empty.begin(180)
	if empty.trace == nil {
		t.Error("a trace without entries must be an empty list in JSON")
	}
}
