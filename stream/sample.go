package stream

import (
	"math"
	"math/bits"
)

// A Sample is the state of one simulator at one moment. It has no pointers, so it can be copied and kept; the zero
// value is an empty sample.
type Sample struct {
	values   [NumChannels]float64
	Has      Set  // channels that hold a value
	Derived  Set  // those of them that were computed here, not sent
	Bad      Set  // channels that were sent with a value not to be believed
	Magnetic bool // Heading is magnetic

	refused      Channel // while the sample is read: the first in Bad, and its value
	refusedValue float64
}

// Reset empties the sample.
func (s *Sample) Reset() { *s = Sample{} }

// Put stores a value in the channel's unit. A value that is NaN, infinite or out of the channel's range is not stored:
// the channel is marked Bad and Put returns false. In a channel that is a flag, whatever is not 0 is stored as 1.
func (s *Sample) Put(c Channel, v float64) bool {
	in := &table[c]
	switch {
	case in.Circular:
		if v-v == 0 && math.Abs(v) < 1e6 {
			v = Wrap360(v)
		}
	case in.Flag && v != 0 && v == v:
		v = 1
	}
	if !(v >= in.Min && v <= in.Max) {
		s.Refuse(c, v)
		return false
	}
	s.values[c] = v
	s.Has = s.Has.With(c)
	return true
}

// Refuse marks a channel Bad: it was sent with a value that is not to be believed, NaN for what is not a number.
func (s *Sample) Refuse(c Channel, v float64) {
	if !s.Bad.Has(s.refused) || c <= s.refused {
		s.refused, s.refusedValue = c, v
	}
	s.Bad = s.Bad.With(c)
}

// TakeRefused returns, once, the first channel in the order of the table whose value was not believed, and that value
// in the channel's unit, NaN for what is not a number; ok is false when there is none.
func (s *Sample) TakeRefused() (c Channel, v float64, ok bool) {
	c, v, ok = s.refused, s.refusedValue, s.Bad.Has(s.refused)
	s.refused, s.refusedValue = 0, 0
	return c, v, ok
}

// Derive stores a computed value and marks it so. A value out of range is left out.
func (s *Sample) Derive(c Channel, v float64) {
	bad, refused, value := s.Bad, s.refused, s.refusedValue
	if s.Put(c, v) {
		s.Derived = s.Derived.With(c)
	}
	s.Bad, s.refused, s.refusedValue = bad, refused, value
}

// Restore stores a value that a sample held before: it was checked then.
func (s *Sample) Restore(c Channel, v float64) {
	s.values[c] = v
	s.Has = s.Has.With(c)
}

// Drop removes a channel.
func (s *Sample) Drop(c Channel) {
	s.Has = s.Has.Without(c)
	s.Derived = s.Derived.Without(c)
	s.values[c] = 0
}

// Get returns the channel's value and whether the sample has it.
func (s *Sample) Get(c Channel) (float64, bool) { return s.values[c], s.Has.Has(c) }

// Value returns the channel's value, 0 where the sample lacks it.
func (s *Sample) Value(c Channel) float64 { return s.values[c] }

// Lerp sets s to the state a share f (0 to 1) of the way from a to b: every channel that both have is interpolated,
// angles the short way around, flags kept from a.
func (s *Sample) Lerp(a, b *Sample, f float64) {
	s.Has = a.Has & b.Has
	s.Derived = (a.Derived | b.Derived) & s.Has
	s.Bad = 0
	s.Magnetic = a.Magnetic
	for c := range NumChannels {
		va, vb := a.values[c], b.values[c]
		switch in := &table[c]; {
		case !s.Has.Has(c):
			s.values[c] = 0
		case in.Circular:
			s.values[c] = Wrap360(va + f*Wrap180(vb-va))
		case in.Signed:
			s.values[c] = Wrap180(va + f*Wrap180(vb-va))
		case in.Flag:
			s.values[c] = va
		default:
			s.values[c] = va + f*(vb-va)
		}
	}
}

// Raised are the flags that are 1.
func (s *Sample) Raised() (raised Set) {
	for rest := s.Has & Flags; rest != 0; rest &= rest - 1 {
		if c := Channel(bits.TrailingZeros64(uint64(rest))); s.values[c] != 0 {
			raised = raised.With(c)
		}
	}
	return raised
}

// Negate changes the sign of a channel that the sample has.
func (s *Sample) Negate(c Channel) {
	if s.Has.Has(c) {
		s.values[c] = -s.values[c]
	}
}

// Mirror turns a sample of a turn to one side into that of the same turn to the other: every channel that has a side
// changes its sign.
func (s *Sample) Mirror() {
	for has := uint64(s.Has & Sided); has != 0; has &= has - 1 {
		c := bits.TrailingZeros64(has)
		s.values[c] = -s.values[c]
	}
}
