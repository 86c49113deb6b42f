package judge

import (
	"fmt"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/coach/plan"
	"halfturn/coach/track"
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

// A gate is what was found of one condition.
type gate struct {
	value     float64
	known, ok bool
}

// A setup judges the flight before a leg.
type setup struct {
	*expected
	gates    [numGates]gate
	ready    bool
	list     []coach.Gate // as last reported
	reported uint64       // the open and the known gates when last reported; 0 before
}

// An expected is what one of some plans asks of the set-up before it is flown. It does not change.
type expected struct {
	among []*plan.Plan
	wants [numGates]coach.Gate
	room  float64 // height above the hard deck that is needed, ft
}

// expect returns what plans, one of which will be flown, ask of the set-up. Judges that expect the same share it.
func (s *Shared) expect(plans []*plan.Plan) *expected {
	if s.expected == nil || !slices.Equal(s.expected.among, plans) {
		s.expected = &expected{plans, gateWants(plans), room(plans)}
	}
	return s.expected
}

// clear forgets what was found.
func (u *setup) clear() {
	u.ready, u.reported, u.list, u.gates = false, 0, nil, [numGates]gate{}
}

// Gates returns the conditions of a set-up for a plan, with nothing judged.
func Gates(p *plan.Plan) []coach.Gate {
	wants := gateWants([]*plan.Plan{p})
	return wants[:gateLine]
}

// gateWants words the gates before one of the plans is flown, so that any of them can begin. The bands are those of
// the first plan.
func gateWants(plans []*plan.Plan) [numGates]coach.Gate {
	card := &plans[0].Card.Setup
	g := [numGates]coach.Gate{
		gateLevel: {
			ID: "wings-level", Label: "Wings level", Unit: "°",
			Want: fmt.Sprintf("within %g°", card.Bank),
		},
		gateHeight: {
			ID: "height-held", Label: "Height held", Unit: "ft/min",
			Want: fmt.Sprintf("within %g ft/min", card.VerticalSpeed),
		},
		gateSpeed: {
			ID: "entry-speed", Label: "Steady speed", Unit: "kt",
			Want: fmt.Sprintf("steady within %g kt", card.Spread),
		},
		gateBall: {
			ID: "ball", Label: "Ball centered", Unit: "balls",
			Want: fmt.Sprintf("within %g of a ball", card.Ball),
		},
		gateDeck: {
			ID: "hard-deck", Label: "Above the hard deck", Unit: "ft",
			Want: fmt.Sprintf("at least %.0f ft", room(plans)),
		},
		gateClearing: {
			ID: "clearing-turns", Label: "Clearing turns", Unit: "°",
			Want: "180° of turn, or 90° each way", Optional: true,
		},
		gateLine: {ID: "on-the-line", Label: "On the line", Unit: "°"}, // the line has the words
	}
	if speeds := entrySpeeds(plans); len(speeds) > 0 {
		g[gateSpeed].Label = "Entry speed"
		g[gateSpeed].Want = fmt.Sprintf("%s, within %g kt", listSpeeds(speeds), card.Airspeed)
	}
	return g
}

// listSpeeds words speeds: "95 kt, 100 kt or 120 kt".
func listSpeeds(speeds []float64) string {
	words := fmt.Sprintf("%g kt", speeds[0])
	for i, v := range speeds[1:] {
		joint := ", "
		if i == len(speeds)-2 {
			joint = " or "
		}
		words += fmt.Sprintf("%s%g kt", joint, v)
	}
	return words
}

// entrySpeeds returns the entry speeds of the plans, as far as known, each once, kt.
func entrySpeeds(plans []*plan.Plan) []float64 {
	var all []float64
	for _, p := range plans {
		if p.Aircraft.Entry > 0 {
			all = append(all, p.Aircraft.Entry)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// room is the height above the hard deck that is enough for any of the plans, ft.
func room(plans []*plan.Plan) float64 {
	most := 0.0
	for _, p := range plans {
		most = math.Max(most, p.Room())
	}
	return most
}

// gated are the channels that the gates judge by their means, besides bank.
const gated = stream.Set(1<<stream.VerticalSpeed | 1<<stream.Airspeed | 1<<stream.Ball)

// judgeSetup judges the last three seconds of flight against the gates, and reports when one opens or closes.
func (j *Judge) judgeSetup(s *stream.Sample) {
	now := j.track.Now
	w, full := j.track.Past.Means(now-3, now, gated)
	if !full {
		return
	}
	j.judgeGates(&w, s)
	u := &j.setup
	open, known := uint64(0), uint64(0)
	for i := range u.gates {
		if u.gates[i].ok {
			open |= 1 << i
		}
		if u.gates[i].known {
			known |= 1 << i
		}
	}
	const optional = 1 << gateClearing
	u.ready = known != 0 && (open|optional)&known == known
	if key := open | known<<32 | 1<<63; key != u.reported {
		u.reported = key
		u.list = j.gateList()
		j.emit(&coach.Setup{Time: coach.Round(now, 3), Ready: u.ready, Gates: u.list})
	}
	j.talk.SetUp(u.list, u.ready, s)
}

func (j *Judge) judgeGates(w *track.Means, s *stream.Sample) {
	u := &j.setup
	card := &u.among[0].Card.Setup
	level := math.Abs(w.Bank) <= card.Bank && math.Abs(w.TurnRate) <= card.TurnRate
	u.gates[gateLevel] = gate{w.Bank, true, level}

	vs, known := w.Sample.Get(stream.VerticalSpeed)
	u.gates[gateHeight] = gate{vs, known, known && math.Abs(vs) <= card.VerticalSpeed}

	v, known := w.Sample.Get(stream.Airspeed)
	steady := known && w.HighSpeed-w.LowSpeed <= card.Spread
	u.gates[gateSpeed] = gate{v, known, steady && u.atEntrySpeed(v, card.Airspeed)}

	ball, known := w.Sample.Get(stream.Ball)
	u.gates[gateBall] = gate{ball, known, known && math.Abs(ball) <= card.Ball}

	deck := j.aboveDeck(s)
	u.gates[gateDeck] = gate{deck, !math.IsNaN(deck), deck >= u.room}

	// Within a series the area was cleared before its first leg.
	cleared := j.clearing.Turned(j.track.Now)
	u.gates[gateClearing] = gate{cleared, true, cleared >= track.ClearingDone || j.series != nil}

	off, chosen := j.track.Sight.Off(s.Value(stream.Heading))
	u.gates[gateLine] = gate{off, chosen, math.Abs(off) <= ground.OnLine}
}

// atEntrySpeed reports whether an airspeed (kt) is right for any of the plans.
func (u *setup) atEntrySpeed(v, within float64) bool {
	known := false
	for _, p := range u.among {
		if entry := p.Aircraft.Entry; entry > 0 {
			known = true
			if math.Abs(v-entry) <= within {
				return true
			}
		}
	}
	return !known
}

// gateList returns the gates as they stand; none while nothing was judged.
func (j *Judge) gateList() []coach.Gate {
	u := &j.setup
	if u.reported == 0 {
		return []coach.Gate{}
	}
	line := j.track.Sight.Want()
	list := make([]coach.Gate, 0, numGates)
	for i := range u.gates {
		g := u.wants[i]
		if i == gateLine {
			if line == "" {
				continue
			}
			g.Want = line
		}
		g.OK = u.gates[i].ok
		if u.gates[i].known {
			g.Value = new(coach.Round(u.gates[i].value, 2))
		}
		list = append(list, g)
	}
	return list
}
