package judge

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
)

// A drawing is the trace of a leg: one entry per degree of turn.
type drawing struct {
	axes   ground.Axes
	trace  []coach.Trace
	values []float64 // what the trace points to, made at once
}

// begin makes room for a turn (°), and a little more.
func (d *drawing) begin(turn float64, axes ground.Axes) {
	d.axes = axes
	d.trace = make([]coach.Trace, 0, int(turn)+61)
	d.values = make([]float64, 0, 4*cap(d.trace))
}

// add takes the next moment of a leg.
func (d *drawing) add(m *check.Moment, f *check.Facts) {
	if n := len(d.trace); n > 0 && m.Turn < d.trace[n-1].Turn+1 || n == cap(d.trace) {
		return
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

func (d *drawing) keep(x float64) *float64 {
	d.values = append(d.values, x)
	return &d.values[len(d.values)-1]
}
