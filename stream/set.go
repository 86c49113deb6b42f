package stream

// A Set is a set of channels.
type Set uint64

// AttitudeSet is heading, pitch and bank.
const AttitudeSet = Set(1<<Heading | 1<<Pitch | 1<<Bank)

// Sided are the channels that change their sign with the direction of the turn.
var Sided = setOf(func(in *Info) bool { return in.Sided })

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

// Names lists the members in the order of the table.
func (s Set) Names() []string {
	names := []string{}
	for c := range NumChannels {
		if s.Has(c) {
			names = append(names, table[c].Name)
		}
	}
	return names
}
