package leg

import (
	"iter"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/plan"
)

// Packed is a trace in two fifths of its memory.
type Packed []entry

// An entry is one of a trace. All but the time are whole numbers of the smallest unit of a trace, which a float32 holds
// exactly up to 16 million; NaN is not known.
type entry struct {
	time                                               float64 // s
	turn, bank, pitch, airspeed, height, along, across float32
	off                                                float32 // as in a record; of a leg about a point on the ground
}

// The decimals of a trace.
const (
	timeDigits   = 3
	angleDigits  = 2
	speedDigits  = 2
	heightDigits = 1
	groundDigits = 0
	offDigits    = 1
)

// pack and unpack do together what [coach.Round] does.
func pack(x float64, digits int) float32 { return float32(math.Round(x * math.Pow10(digits))) }

func unpack(x float32, digits int) float64 { return float64(x) / math.Pow10(digits) }

// Pack packs the trace of a record.
func Pack(trace []coach.Trace) Packed {
	known := func(x *float64, digits int) float32 {
		if x == nil {
			return float32(math.NaN())
		}
		return pack(*x, digits)
	}
	p := make(Packed, len(trace))
	for i := range trace {
		t := &trace[i]
		p[i] = entry{
			time:     t.Time,
			turn:     pack(t.Turn, angleDigits),
			bank:     pack(t.Bank, angleDigits),
			pitch:    pack(t.Pitch, angleDigits),
			airspeed: known(t.Airspeed, speedDigits),
			height:   known(t.Height, heightDigits),
			along:    known(t.Along, groundDigits),
			across:   known(t.Across, groundDigits),
			off:      known(t.Off, offDigits),
		}
	}
	return p
}

// Trace returns the trace as a record has it.
func (p Packed) Trace() []coach.Trace {
	list := make([]coach.Trace, len(p))
	values := make([]float64, 0, 5*len(list))
	known := func(x float32, digits int) *float64 {
		if x != x {
			return nil
		}
		values = append(values, unpack(x, digits))
		return &values[len(values)-1]
	}
	for i := range p {
		e := &p[i]
		list[i] = coach.Trace{
			Turn:     unpack(e.turn, angleDigits),
			Time:     e.time,
			Bank:     unpack(e.bank, angleDigits),
			Pitch:    unpack(e.pitch, angleDigits),
			Airspeed: known(e.airspeed, speedDigits),
			Height:   known(e.height, heightDigits),
			Along:    known(e.along, groundDigits),
			Across:   known(e.across, groundDigits),
			Off:      known(e.off, offDigits),
		}
	}
	return list
}

// Same reports whether two traces are the same.
func (p Packed) Same(q Packed) bool {
	return slices.EqualFunc(p, q, func(a, b entry) bool {
		same := func(x, y float32) bool { return math.Float32bits(x) == math.Float32bits(y) } // NaN too
		return a.time == b.time && same(a.turn, b.turn) && same(a.bank, b.bank) && same(a.pitch, b.pitch) &&
			same(a.airspeed, b.airspeed) && same(a.height, b.height) &&
			same(a.along, b.along) && same(a.across, b.across) && same(a.off, b.off)
	})
}

// Attitudes yields the attitudes of the trace.
func (p Packed) Attitudes() iter.Seq[plan.Attitude] {
	return func(yield func(plan.Attitude) bool) {
		for i := range p {
			e := &p[i]
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
