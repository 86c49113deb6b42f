package coach

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach/check"
	"halfturn/stream"
)

// shown are the channels a panel shows.
var shown = [...]stream.Channel{stream.Heading, stream.Pitch, stream.Bank, stream.Airspeed, stream.Altitude,
	stream.Height, stream.VerticalSpeed, stream.Ball, stream.NormalLoad, stream.Throttle, stream.RPM}

// Frame returns the state of now.
func (c *Coach) Frame() *Frame {
	s := &c.last
	f := &Frame{Time: round(c.now, 3), State: "set-up", Phase: "set-up", Values: make(map[string]float64, len(shown)), Cues: []NextCue{}, Ready: c.ready,
		Line: c.line.show(c.heading)}
	from := axes{}
	var m check.Moment
	m.Set(s, 0, 1)
	switch l := c.leg; {
	case l != nil:
		c.frameLeg(f, l)
		m, from = l.cur, l.axes
	case !math.IsNaN(c.ended) && c.now-c.ended < 4:
		f.State, f.Phase = "after", "after"
	default:
		if side := c.frameTurn(f); side < 0 {
			m.Set(s, 0, side)
			from = c.ground.axes(c.level.place, c.level.heading, side)
		} else if side > 0 {
			from = c.ground.axes(c.level.place, c.level.heading, side)
		}
	}
	if f.Gates == nil {
		f.Gates = c.gateList()
	}
	if c.begun {
		f.Ground = c.ground.show(s, &from)
	}
	if c.leg == nil {
		if c.line.side != 0 {
			f.Point, f.PointBy = ptr(90*c.line.side), "heading"
		}
		c.showPoint(f, &c.touched)
	}
	for _, ch := range shown {
		if v, ok := m.Sample.Get(ch); ok {
			f.Values[ch.String()] = round(v, 2)
		}
	}
	if v, ok := check.StallMarginAt(s, c.plan.Aircraft.Stall); ok {
		f.Stall = ptr(round(v, 1))
	}
	if v := c.aboveDeck(s); !math.IsNaN(v) {
		f.Deck = ptr(round(v, 0))
	}
	return f
}

// frameLeg adds what there is to show of a leg.
func (c *Coach) frameLeg(f *Frame, l *leg) {
	card := c.plan.Card
	f.State, f.Direction, f.Turn = "leg", direction(l.side), round(l.cur.Turn, 2)
	f.Gates = []Gate{}
	if l.phase >= 0 {
		f.Phase = card.Phases[l.phase].Name
	}
	if now, ok := l.cur.Sample.Get(stream.Altitude); ok {
		f.Climb = ptr(round(now-l.facts.Entry.Sample.Value(stream.Altitude), 1))
	}
	// The point stood off the wing on the side of the turn, 90° from the entry heading.
	f.Point, f.PointBy = ptr(round(stream.Wrap180(l.side*(90-l.cur.Turn)), 1)), "heading"
	c.showPoint(f, &l.point)
	next := card.Checkpoints[l.next]
	f.Next = &Next{Turn: next.Turn, Label: c.plan.Label(next.Turn), Words: next.Words, Want: c.plan.Want(next.Turn), Point: l.side * next.Point}
	if left, ok := c.until(l, next.Turn); ok {
		f.Next.Seconds = ptr(round(math.Max(0, left), 2))
	}
	for _, q := range card.AllCues[:l.sent] {
		if q.Turn <= l.cur.Turn {
			continue
		}
		if left, ok := c.until(l, q.Turn); ok {
			f.Cues = append(f.Cues, NextCue{q.Turn, round(math.Max(0, left), 2)})
		}
	}
}

// frameTurn shows a turn that is not, or not yet, a leg, and returns its side: 0 for none.
func (c *Coach) frameTurn(f *Frame) (side float64) {
	if !c.level.ok {
		return 0
	}
	turned := c.turned - c.level.turned
	if math.Abs(turned) < 3 {
		return 0
	}
	f.State, f.Turn, f.Direction = "turn", round(math.Abs(turned), 2), direction(turned)
	if now, ok := c.last.Get(stream.Altitude); ok {
		f.Climb = ptr(round(now-c.level.altitude, 1))
	}
	return math.Copysign(1, turned)
}

// Label names a checkpoint on the ribbon.
func (p *Plan) Label(turn float64) string {
	if turn == p.Card.Turn {
		return "out"
	}
	return fmt.Sprintf("%g°", turn)
}

// Want says the numbers aimed at at a turn angle: "bank 45°, nose 17° down, 131 kt".
func (p *Plan) Want(turn float64) string {
	bank := math.Round(p.Bank(turn))
	parts := []string{fmt.Sprintf("bank %.0f°", bank)}
	if bank == 0 {
		parts[0] = "wings level"
	}
	if aim, _, ok := p.Aim("pitch", turn); ok {
		switch n := math.Round(aim); {
		case n > 0:
			parts = append(parts, fmt.Sprintf("nose %.0f° up", n))
		case n < 0:
			parts = append(parts, fmt.Sprintf("nose %.0f° down", -n))
		default:
			parts = append(parts, "nose level")
		}
	}
	if aim, _, ok := p.Aim("airspeed", turn); ok {
		parts = append(parts, fmt.Sprintf("%.0f kt", aim))
	}
	return strings.Join(parts, ", ")
}
