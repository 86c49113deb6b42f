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

// A drawing is the trace of a leg while it is flown: one entry per degree of turn. It grows in steps, since most judges
// of a station see a leg that ends early or is another card's.
type drawing struct {
	axes    ground.Axes
	most    int // entries
	entries []entry
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
	angleDigits  = 2
	speedDigits  = 2
	heightDigits = 1
	groundDigits = 0
)

// pack and unpack do together what [coach.Round] does.
func pack(x float64, digits int) float32 { return float32(math.Round(x * math.Pow10(digits))) }

func unpack(x float32, digits int) float64 { return float64(x) / math.Pow10(digits) }

// begin limits the trace to a turn (°) and a little more.
func (d *drawing) begin(turn float64) { d.most = int(turn) + 61 }

// add takes the next moment of a leg.
func (d *drawing) add(m *check.Moment, f *check.Facts) {
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
		time:     coach.Round(m.Time(), 3),
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

// trace returns the trace as a record has it.
func (d *drawing) trace() []coach.Trace {
	list := make([]coach.Trace, len(d.entries))
	values := make([]float64, 0, 4*len(list))
	known := func(x float32, digits int) *float64 {
		if x != x {
			return nil
		}
		values = append(values, unpack(x, digits))
		return &values[len(values)-1]
	}
	for i := range d.entries {
		e := &d.entries[i]
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

// attitudes yields the attitudes of the trace.
func (d *drawing) attitudes() iter.Seq[plan.Attitude] {
	return func(yield func(plan.Attitude) bool) {
		for i := range d.entries {
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
