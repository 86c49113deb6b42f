package leg

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
)

// A drawing is the trace of a leg: one entry per degree of turn. It grows in steps, since most judges of a station see
// a leg that ends early or is another card's.
type drawing struct {
	axes   ground.Axes
	most   int // entries
	trace  []coach.Trace
	values []float64 // what the latest entries point to
}

const (
	drawingStep   = 64 // entries
	valuesOfEntry = 4
)

// begin limits the trace to a turn (°) and a little more.
func (d *drawing) begin(turn float64) { d.most, d.trace = int(turn)+61, []coach.Trace{} }

// add takes the next moment of a leg.
func (d *drawing) add(m *check.Moment, f *check.Facts) {
	if n := len(d.trace); n == d.most || n > 0 && m.Turn < d.trace[n-1].Turn+1 {
		return
	}
	if len(d.trace) == cap(d.trace) {
		d.grow()
	}
	s := &m.Sample
	t := coach.Trace{
		Turn:  coach.Round(m.Turn, 2),
		Time:  coach.Round(m.Time(), 3),
		Bank:  coach.Round(s.Value(stream.Bank), 2),
		Pitch: coach.Round(s.Value(stream.Pitch), 2),
	}
	if v, ok := s.Get(stream.Airspeed); ok {
		t.Airspeed = d.keep(coach.Round(v, 2))
	}
	if v, ok := s.Get(stream.Altitude); ok {
		t.Height = d.keep(coach.Round(v-f.Entry.Sample.Value(stream.Altitude), 1))
	}
	if along, across, ok := d.axes.Locate(s); ok {
		t.Along, t.Across = d.keep(coach.Round(along, 0)), d.keep(coach.Round(across, 0))
	}
	d.trace = append(d.trace, t)
}

// grow makes room for the next entries. Earlier ones keep pointing to the values that they have.
func (d *drawing) grow() {
	n := len(d.trace)
	grown := make([]coach.Trace, n, min(n+drawingStep, d.most))
	copy(grown, d.trace)
	d.trace, d.values = grown, make([]float64, 0, valuesOfEntry*(cap(grown)-n))
}

func (d *drawing) keep(x float64) *float64 {
	d.values = append(d.values, x)
	return &d.values[len(d.values)-1]
}
