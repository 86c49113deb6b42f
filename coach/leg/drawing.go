package leg

import (
	"iter"
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/coach/plan"
	"halfturn/stream"
)

// A drawing is the trace of a course while it is flown: one entry per degree of turn. It grows in steps, since many
// legs end early.
type drawing struct {
	axes    ground.Axes
	most    int     // entries
	until   float64 // stream time up to which it is drawn, s
	entries []entry
	traces  []coach.Trace // the first entries as a record has them
}

const drawingStep = 64 // entries

// An entry is one of a trace, in less than half of its memory. All but the time are whole numbers of the smallest unit
// of a trace, which a float32 holds exactly up to 16 million; NaN is not known.
type entry struct {
	time                                               float64 // s
	turn, bank, pitch, airspeed, height, along, across float32
}

// The smallest units of a trace: so many decimals.
const (
	timeDigits   = 3
	angleDigits  = 2
	speedDigits  = 2
	heightDigits = 1
	groundDigits = 0
)

// pack and unpack do together what [coach.Round] does.
func pack(x float64, digits int) float32 { return float32(math.Round(x * math.Pow10(digits))) }

func unpack(x float32, digits int) float64 { return float64(x) / math.Pow10(digits) }

// begin limits the trace to a turn (°) and a little more.
func (d *drawing) begin(turn float64) { d.most, d.until = entriesOf(turn), math.Inf(-1) }

func entriesOf(turn float64) int { return int(turn) + 61 }

// add takes the next moment of the course. One that another leg has added is passed over.
func (d *drawing) add(m *check.Moment, f *check.Facts) {
	if m.Time() < d.until {
		return
	}
	d.until = m.Time()
	n := len(d.entries)
	if n == d.most || n > 0 && m.Turn < unpack(d.entries[n-1].turn, angleDigits)+1 {
		return
	}
	if n == cap(d.entries) {
		grown := make([]entry, n, min(n+drawingStep, d.most))
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
}

// upTo returns how many entries there are up to a moment, at least n.
func (d *drawing) upTo(n int, m *check.Moment) int {
	now := coach.Round(m.Time(), timeDigits)
	for n < len(d.entries) && d.entries[n].time <= now {
		n++
	}
	return n
}

// trace returns the first entries as a record has them. Legs of the same course share them.
func (d *drawing) trace(n int) []coach.Trace {
	if n > len(d.traces) || d.traces == nil {
		d.traces = unpacked(d.entries[:n])
	}
	return d.traces[:n:n]
}

func unpacked(entries []entry) []coach.Trace {
	list := make([]coach.Trace, len(entries))
	values := make([]float64, 0, 4*len(list))
	known := func(x float32, digits int) *float64 {
		if x != x {
			return nil
		}
		values = append(values, unpack(x, digits))
		return &values[len(values)-1]
	}
	for i := range entries {
		e := &entries[i]
		list[i] = coach.Trace{
			Turn:     unpack(e.turn, angleDigits),
			Time:     e.time,
			Bank:     unpack(e.bank, angleDigits),
			Pitch:    unpack(e.pitch, angleDigits),
			Airspeed: known(e.airspeed, speedDigits),
			Height:   known(e.height, heightDigits),
			Along:    known(e.along, groundDigits),
			Across:   known(e.across, groundDigits),
		}
	}
	return list
}

// attitudes yields those of the first entries.
func (d *drawing) attitudes(n int) iter.Seq[plan.Attitude] {
	return func(yield func(plan.Attitude) bool) {
		for i := range d.entries[:n] {
			e := &d.entries[i]
			a := plan.Attitude{
				Turn:  unpack(e.turn, angleDigits),
				Bank:  unpack(e.bank, angleDigits),
				Pitch: unpack(e.pitch, angleDigits),
			}
			if !yield(a) {
				return
			}
		}
	}
}
