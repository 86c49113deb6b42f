package coach

import (
	"fmt"
	"math"
	"slices"

	"halfturn/stream"
)

// The gates of a set-up.
const (
	gateLevel = iota
	gateHeight
	gateSpeed
	gateBall
	gateDeck
	gateClearing
	gateLine
	numGates
)

// gate is what a gate found; what it wants is worked out with the plan.
type gate struct {
	value     float64
	known, ok bool
}

// gateWants are the words of the gates before one of the plans is flown: what lets any of them begin. The bands
// are those of the first.
func gateWants(plans []*Plan, l *line) [numGates]Gate {
	card := &plans[0].Card.Setup
	g := [numGates]Gate{
		gateLevel:    {ID: "wings-level", Label: "Wings level", Unit: "°", Want: fmt.Sprintf("within %g°", card.Bank)},
		gateHeight:   {ID: "height-held", Label: "Height held", Unit: "ft/min", Want: fmt.Sprintf("within %g ft/min", card.VerticalSpeed)},
		gateSpeed:    {ID: "entry-speed", Label: "Steady speed", Unit: "kt", Want: fmt.Sprintf("steady within %g kt", card.Spread)},
		gateBall:     {ID: "ball", Label: "Ball centered", Unit: "balls", Want: fmt.Sprintf("within %g of a ball", card.Ball)},
		gateDeck:     {ID: "hard-deck", Label: "Above the hard deck", Unit: "ft", Want: fmt.Sprintf("at least %.0f ft", room(plans))},
		gateClearing: {ID: "clearing-turns", Label: "Clearing turns", Unit: "°", Want: "180° of turn, or 90° each way", Optional: true},
		gateLine:     {ID: "on-the-line", Label: "On the line", Unit: "°", Want: fmt.Sprintf("within %g° of %03.0f°", onLine, l.heading)},
	}
	if speeds := entrySpeeds(plans); len(speeds) > 0 {
		words := fmt.Sprintf("%g kt", speeds[0])
		for i, v := range speeds[1:] {
			joint := ", "
			if i == len(speeds)-2 {
				joint = " or "
			}
			words += fmt.Sprintf("%s%g kt", joint, v)
		}
		g[gateSpeed].Label, g[gateSpeed].Want = "Entry speed", fmt.Sprintf("%s, within %g kt", words, card.Airspeed)
	}
	return g
}

// entrySpeeds are those at which the plans begin, as far as known, each once, kt.
func entrySpeeds(plans []*Plan) []float64 {
	var all []float64
	for _, p := range plans {
		if p.Aircraft.Entry > 0 {
			all = append(all, p.Aircraft.Entry)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// expect sets the gates for plans of which one will be flown.
func (c *Coach) expect(plans ...*Plan) {
	c.among, c.room, c.wants = plans, room(plans), gateWants(plans, &c.line)
}

// Gates returns what a set-up wants, with nothing judged.
func (p *Plan) Gates() []Gate {
	wants := gateWants([]*Plan{p}, &line{})
	return wants[:gateLine]
}

// room is the height above the hard deck from which the reference path stays above it by a
// margin, ft.
func (p *Plan) room() float64 {
	lowest := 0.0
	if p.Path != nil {
		lowest = math.Max(0, -p.Path.Lowest().Height)
	}
	return math.Ceil((lowest+deckMargin)/10) * 10
}

// room is the height above the hard deck that is enough for any of the plans, ft.
func room(plans []*Plan) float64 {
	most := 0.0
	for _, p := range plans {
		most = math.Max(most, p.room())
	}
	return most
}

// onLine is how far the nose may be from the chosen line, either way along it, °.
const onLine = 5.0

const deckMargin = 100 // ft, common practice, no source

// setUp judges the last three seconds of level flight against the card's gates and tells when
// one opens or closes.
func (c *Coach) setUp(s *stream.Sample) {
	w, full := c.ring.means(c.now-3, c.now, gated)
	if !full {
		return
	}
	c.judgeGates(&w, s)
	open, known := uint64(0), uint64(0)
	for i := range c.gates {
		if c.gates[i].ok {
			open |= 1 << i
		}
		if c.gates[i].known {
			known |= 1 << i
		}
	}
	const optional = 1 << gateClearing
	c.ready = known != 0 && (open|optional)&known == known
	if key := open | known<<32 | 1<<63; key != c.told {
		c.told = key
		c.emit(&Setup{Time: round(c.now, 3), Ready: c.ready, Gates: c.gateList()})
	}
}

// gated are the channels whose means the gates judge, besides bank.
const gated = stream.Set(1<<stream.VerticalSpeed | 1<<stream.Airspeed | 1<<stream.Ball)

func (c *Coach) judgeGates(w *window, s *stream.Sample) {
	card := &c.among[0].Card.Setup
	level := math.Abs(w.bank) <= card.Bank && math.Abs(w.turnRate) <= card.TurnRate
	c.gates[gateLevel] = gate{w.bank, true, level}
	vs, known := w.sample.Get(stream.VerticalSpeed)
	c.gates[gateHeight] = gate{vs, known, known && math.Abs(vs) <= card.VerticalSpeed}
	v, known := w.sample.Get(stream.Airspeed)
	steady := known && w.high-w.low <= card.Spread
	c.gates[gateSpeed] = gate{v, known, steady && c.atEntrySpeed(v, card.Airspeed)}
	ball, known := w.sample.Get(stream.Ball)
	c.gates[gateBall] = gate{ball, known, known && math.Abs(ball) <= card.Ball}
	deck := c.aboveDeck(s)
	c.gates[gateDeck] = gate{deck, !math.IsNaN(deck), deck >= c.room}
	// Within a series the area was cleared before its first leg.
	cleared := c.clearing.turned(c.now)
	c.gates[gateClearing] = gate{cleared, true, cleared >= clearingDone || c.series != nil}
	off := c.line.off(s.Value(stream.Heading))
	c.gates[gateLine] = gate{off, c.line.set, math.Abs(off) <= onLine}
}

// atEntrySpeed tells whether an airspeed is right for any of the plans, kt.
func (c *Coach) atEntrySpeed(v, within float64) bool {
	known := false
	for _, p := range c.among {
		if entry := p.Aircraft.Entry; entry > 0 {
			known = true
			if math.Abs(v-entry) <= within {
				return true
			}
		}
	}
	return !known
}

// gateList writes the gates out.
func (c *Coach) gateList() []Gate {
	if c.told == 0 {
		return []Gate{} // nothing judged yet
	}
	list := make([]Gate, 0, numGates)
	for i := range c.gates {
		if i == gateLine && !c.line.set {
			continue
		}
		g := c.wants[i]
		g.OK = c.gates[i].ok
		if c.gates[i].known {
			g.Value = ptr(round(c.gates[i].value, 2))
		}
		list = append(list, g)
	}
	return list
}
