package leg

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"halfturn/coach"
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
		trace := d.trace(len(d.entries))
		if len(trace) != c.want {
			t.Errorf("from %g° to %g° of %g°: %d entries; must be %d", c.from, c.to, c.turn, len(trace), c.want)
		}
		for i := range trace {
			x := &trace[i]
			turn := c.from + float64(i)
			if x.Turn != turn || *x.Airspeed != 100+turn || *x.Height != 2*turn || x.Along != nil {
				t.Fatalf("entry %d is %+v, %g kt, %g ft; must be that of %g°", i, x, *x.Airspeed, *x.Height, turn)
			}
		}
	}
	var empty drawing
	empty.begin(180)
	if empty.trace(0) == nil {
		t.Error("a trace without entries must be an empty list in JSON")
	}
}

// While it is flown a trace is kept packed. What comes out is rounded as everything in a report is, the sign of a zero
// included.
func TestPacked(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		var d drawing
		var f check.Facts
		d.begin(180)
		var m check.Moment
		m.Turn = rnd.Float64()*1200 - 30
		bank, pitch, altitude := rnd.Float64()*360-180, rnd.NormFloat64()*0.01, rnd.Float64()*150000
		airspeed, now := rnd.Float64()*1500, rnd.Float64()*1e9
		m.Sample.Put(stream.Time, now)
		m.Sample.Put(stream.Bank, bank)
		m.Sample.Put(stream.Pitch, pitch)
		m.Sample.Put(stream.Altitude, altitude)
		if d.add(&m, &f); d.trace(1)[0].Airspeed != nil {
			t.Fatal("an airspeed that was not sent is in the trace")
		}
		m.Turn += 1.01
		m.Sample.Put(stream.Airspeed, airspeed)
		d.add(&m, &f)
		got := d.trace(2)[1]
		if again := Pack(d.trace(2)).Trace(); !reflect.DeepEqual(again, d.trace(2)) {
			t.Fatalf("packed again it is %+v, was %+v", again, d.trace(2))
		}
		for what, v := range map[string][2]float64{
			"turn":     {got.Turn, coach.Round(m.Turn, 2)},
			"time":     {got.Time, coach.Round(now, 3)},
			"bank":     {got.Bank, coach.Round(bank, 2)},
			"pitch":    {got.Pitch, coach.Round(pitch, 2)},
			"airspeed": {*got.Airspeed, coach.Round(airspeed, 2)},
			"height":   {*got.Height, coach.Round(altitude, 1)},
		} {
			if math.Float64bits(v[0]) != math.Float64bits(v[1]) {
				t.Fatalf("%s is %v in the trace, %v rounded", what, v[0], v[1])
			}
		}
		for a := range d.entries.Attitudes() {
			if a.Bank != got.Bank || a.Pitch != got.Pitch {
				t.Fatalf("%+v beside %+v", a, got)
			}
		}
	}
}
