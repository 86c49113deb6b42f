package maneuver

import (
	"slices"

	"halfturn/stream"
)

// A Kind is one kind of check a card can ask for.
type Kind struct {
	Name   string
	Says   string   // what it measures
	Needs  []string // keys it cannot do without
	Allows []string // further keys that mean something to it
	Series bool     // judged over a series, not a leg
}

// Kinds are all kinds of check, in the order in which the handbook page lists them.
var Kinds = []Kind{
	{"set-up", "mean over the set-up, before the leg", []string{"channel"}, []string{"about"}, false},
	{"value", "value at a turn angle, or at the exit", []string{"channel"}, []string{"turn", "at", "about"}, false},
	{"extreme", "highest or lowest value in a span", []string{"channel", "extreme", "from", "to"}, []string{"about", "smooth"}, false},
	{"extreme-angle", "turn angle of the highest or lowest value in a span", []string{"channel", "extreme", "from", "to"}, []string{"smooth", "within"}, false},
	{"crossing-angle", "turn angle where a value is crossed", []string{"channel", "from", "to"}, []string{"cross", "falling", "smooth"}, false},
	{"roll-out-angle", "turn angle where the roll-out starts: change point of the bank rate", []string{"from", "to"}, nil, false},
	{"roll-ratio", "rate of the roll-in over rate of the roll-out", nil, nil, false},
	{"change", "change from entry to exit", []string{"channel"}, []string{"about"}, false},
	{"departure", "largest departure from the entry, or from the start of the span", []string{"channel"}, []string{"from", "to"}, false},
	{"mean", "mean over a span", []string{"channel", "from", "to"}, []string{"about"}, false},
	{"rms", "root mean square over a span", []string{"channel", "from", "to"}, []string{"smooth"}, false},
	{"share", "share of time within a band", []string{"channel", "within", "from", "to"}, []string{"smooth"}, false},
	{"reversal", "largest reversal of what should only rise", []string{"channel", "from", "to"}, []string{"smooth"}, false},
	{"rise", "largest rise above the value at the start of a span", []string{"channel", "from", "to"}, []string{"smooth"}, false},
	{"pace", "time of the leg over the time of the reference path", nil, nil, false},
	{"smoothness", "spectral arc length of a rate: −1.4 is one smooth movement, less is rougher", []string{"channel", "from", "to"}, nil, false},
	{"rhythm", "time of the slowest quarter of a span over that of the quickest", []string{"from", "to"}, nil, false},
	{"ball-centered", "share of time with the ball within a distance of the middle, and its worst moment", []string{"channel", "within", "from", "to"}, []string{"smooth"}, false},
	{"symmetry", "difference of a leg check between the legs of a series", []string{"of"}, nil, true},
	{"directions", "legs flown the same way as the one before", nil, nil, true},
	{"return", "heading at the end against the first entry heading", nil, nil, true},
	{"legs", "finished legs", nil, nil, true},
}

// KindNamed finds a kind.
func KindNamed(name string) (Kind, bool) {
	i := slices.IndexFunc(Kinds, func(k Kind) bool { return k.Name == name })
	if i < 0 {
		return Kind{}, false
	}
	return Kinds[i], true
}

func kindNames() []string {
	var names []string
	for _, k := range Kinds {
		names = append(names, k.Name)
	}
	return names
}

// Quantities a check can judge besides the channels of a sample.
const (
	Climb       = "climb"        // ft since the entry
	StallMargin = "stall-margin" // kt above the stall speed at the load factor of the moment
	Slip        = "slip"         // balls: the ball, else from the lateral load factor, else from the sideslip
	Power       = "power"        // throttle, else torque, else N1: the first the stream has
	SpeedSpread = "speed-spread" // kt, set-up only
	TurnRate    = "turn-rate"    // °/s, set-up only
	TurnAngle   = "turn"         // ° turned since the entry
)

// Quantity is a channel or one of the computed quantities.
type Quantity struct {
	Name, Title, Unit string
}

// QuantityNamed finds a channel or computed quantity by name.
func QuantityNamed(name string) (Quantity, bool) {
	switch name {
	case Climb:
		return Quantity{name, "height since entry", "ft"}, true
	case StallMargin:
		return Quantity{name, "margin over the stall", "kt"}, true
	case Slip:
		return Quantity{name, "ball", "balls"}, true
	case Power:
		return Quantity{name, "power", "ratio"}, true
	case SpeedSpread:
		return Quantity{name, "spread of airspeed", "kt"}, true
	case TurnAngle:
		return Quantity{name, "turn", "°"}, true
	case TurnRate:
		return Quantity{name, "turn rate", "°/s"}, true
	}
	c, ok := stream.ChannelNamed(name)
	if !ok {
		return Quantity{}, false
	}
	in := c.Info()
	return Quantity{in.Name, in.Title, in.Unit}, true
}

func quantityNames() []string {
	return append(stream.ChannelNames(), Climb, StallMargin, Slip, Power, SpeedSpread, TurnRate, TurnAngle)
}

// What a band can be counted from.
var abouts = []string{"entry", "apex", "stall", "nose"}
