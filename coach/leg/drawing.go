package leg

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
)

// A drawing is the trace of a course while it is flown: one entry per degree of turn. It grows in steps, since many
// legs end early.
type drawing struct {
	axes    ground.Axes
	most    int     // entries
	until   float64 // stream time up to which it is drawn, s
	next    float64 // ° of turn from which the next entry is drawn
	entries Packed
	traces  []coach.Trace // the first entries as a record has them
}

const drawingStep = 48 // entries

// begin limits the trace to a turn (°) and a little more.
func (d *drawing) begin(turn float64) {
	d.most, d.until, d.next = entriesOf(turn), math.Inf(-1), math.Inf(-1)
}

func entriesOf(turn float64) int { return int(turn) + 61 }

// add takes the next moment of the course. One that another leg has added is passed over.
func (d *drawing) add(m *check.Moment, f *check.Facts) {
	if m.Time() < d.until {
		return
	}
	d.until = m.Time()
	n := len(d.entries)
	if m.Turn < d.next || n == d.most {
		return
	}
	if n == cap(d.entries) {
		grown := make(Packed, n, min(n+drawingStep, d.most))
		copy(grown, d.entries)
		d.entries = grown
	}
	s := &m.Sample
	unknown := float32(math.NaN())
	e := entry{
		time:     coach.Round(m.Time(), timeDigits),
		turn:     pack(m.Turn, angleDigits),
		bank:     pack(s.Value(stream.Bank), angleDigits),
		pitch:    pack(s.Value(stream.Pitch), angleDigits),
		airspeed: unknown,
		height:   unknown,
		along:    unknown,
		across:   unknown,
		off:      unknown,
	}
	if v, ok := s.Get(stream.Airspeed); ok {
		e.airspeed = pack(v, speedDigits)
	}
	if v, ok := s.Get(stream.Altitude); ok {
		e.height = pack(v-f.Entry.Sample.Value(stream.Altitude), heightDigits)
	}
	if along, across, ok := d.axes.Locate(s); ok {
		e.along, e.across = pack(along, groundDigits), pack(across, groundDigits)
	}
	d.entries = append(d.entries, e)
	d.next = unpack(e.turn, angleDigits) + 1
}

// upTo returns how many entries there are up to a moment, at least n.
func (d *drawing) upTo(n int, m *check.Moment) int {
	if n == len(d.entries) {
		return n
	}
	now := coach.Round(m.Time(), timeDigits)
	for n < len(d.entries) && d.entries[n].time <= now {
		n++
	}
	return n
}

// trace returns the first entries as a record has them. Legs of the same course share them.
func (d *drawing) trace(n int) []coach.Trace {
	if n > len(d.traces) || d.traces == nil {
		d.traces = d.entries[:n].Trace()
	}
	return d.traces[:n:n]
}
