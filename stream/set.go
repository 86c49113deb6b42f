package stream

import (
	"iter"
	"math/bits"
)

// A Set is a set of channels.
type Set uint64

// AttitudeSet is heading, pitch and bank.
const AttitudeSet = Set(1<<Heading | 1<<Pitch | 1<<Bank)

// Sided are the channels that change their sign with the direction of the turn.
var Sided = setOf(func(in *Info) bool { return in.Sided })

// Flags are the channels that are 0 or 1.
var Flags = setOf(func(in *Info) bool { return in.Flag })

func setOf(has func(in *Info) bool) (s Set) {
	for c := range NumChannels {
		if has(&table[c]) {
			s = s.With(c)
		}
	}
	return s
}

// Has reports whether c is in the set.
func (s Set) Has(c Channel) bool { return s&(1<<c) != 0 }

// With returns the set with c in it.
func (s Set) With(c Channel) Set { return s | 1<<c }

// Without returns the set with c taken out.
func (s Set) Without(c Channel) Set { return s &^ (1 << c) }

// All yields the members in the order of the table.
func (s Set) All() iter.Seq[Channel] {
	return func(yield func(Channel) bool) {
		for ; s != 0; s &= s - 1 {
			if !yield(Channel(bits.TrailingZeros64(uint64(s)))) {
				return
			}
		}
	}
}

// Names lists the members in the order of the table.
func (s Set) Names() []string {
	names := []string{}
	for c := range s.All() {
		names = append(names, table[c].Name)
	}
	return names
}
