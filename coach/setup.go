package coach

import (
	"fmt"
	"math"

	"halfturn/stream"
)

// setUp judges the last three seconds of level flight against the card's gates and tells when
// one opens or closes.
func (c *Coach) setUp(s *stream.Sample) {
	w, full := c.ring.over(c.now-3, c.now)
	if !full {
		return
	}
	c.gates = c.judgeGates(c.gates[:0], &w, s)
	open, known := uint64(0), uint64(0)
	for i := range c.gates {
		if c.gates[i].OK {
			open |= 1 << i
		}
		if c.gates[i].Value != nil {
			known |= 1 << i
		}
	}
	c.ready = known != 0 && open&known == known
	if key := open | known<<32 | 1<<63; key != c.told {
		c.told = key
		gates := make([]Gate, len(c.gates))
		copy(gates, c.gates)
		c.emit(&Setup{Time: round(c.now, 3), Ready: c.ready, Gates: gates})
	}
}

func (c *Coach) judgeGates(g []Gate, w *window, s *stream.Sample) []Gate {
	card, a := &c.plan.Card.Setup, &c.plan.Aircraft
	gate := func(id, label, unit, want string, v float64, known bool, ok bool) {
		n := Gate{ID: id, Label: label, Unit: unit, Want: want, OK: known && ok}
		if known {
			n.Value = ptr(round(v, 2))
		}
		g = append(g, n)
	}
	level := math.Abs(w.bank) <= card.Bank && math.Abs(w.turnRate) <= card.TurnRate
	gate("wings-level", "Wings level", "°", fmt.Sprintf("within %g°", card.Bank), w.bank, true, level)
	vs, has := w.sample.Get(stream.VerticalSpeed)
	gate("height-held", "Height held", "ft/min", fmt.Sprintf("within %g ft/min", card.VerticalSpeed), vs, has, math.Abs(vs) <= card.VerticalSpeed)
	v, has := w.sample.Get(stream.Airspeed)
	steady := w.high-w.low <= card.Spread
	if a.Entry > 0 {
		gate("entry-speed", "Entry speed", "kt", fmt.Sprintf("%g kt, within %g", a.Entry, card.Airspeed), v, has, steady && math.Abs(v-a.Entry) <= card.Airspeed)
	} else {
		gate("entry-speed", "Steady speed", "kt", fmt.Sprintf("steady within %g kt", card.Spread), v, has, steady)
	}
	ball, has := w.sample.Get(stream.Ball)
	gate("ball", "Ball centered", "balls", fmt.Sprintf("within %g of a ball", card.Ball), ball, has, math.Abs(ball) <= card.Ball)
	deck := c.aboveDeck(s)
	lowest := 0.0
	if c.plan.Path != nil {
		lowest = math.Max(0, -c.plan.Path.Lowest().Height)
	}
	gate("hard-deck", "Above the hard deck", "ft", "at least "+wholeFeet(lowest+100), deck, !math.IsNaN(deck), deck >= lowest+100)
	return g
}
