package judge

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/coach/plan"
	"halfturn/coach/track"
	"halfturn/stream"
	"halfturn/stream/phrase"
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

// A gate is the state of one condition.
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
	reported uint64       // bits of the open and the known gates as last reported; 0 before the first report
}

// An expected is what the set-up needs before one of some plans is flown. It is immutable.
type expected struct {
	among []*plan.Plan
	wants [numGates]coach.Gate
	room  float64 // height above the hard deck that is needed, ft
}

// expect returns what the set-up needs before one of the plans is flown. Judges with the same plans share it.
func (s *Shared) expect(plans []*plan.Plan) *expected {
	if s.expected == nil || !slices.Equal(s.expected.among, plans) {
		s.expected = &expected{plans, gateWants(plans), room(plans)}
	}
	return s.expected
}

// clear forgets the state of all gates.
func (u *setup) clear() {
	u.ready, u.reported, u.list, u.gates = false, 0, nil, [numGates]gate{}
}

// Gates returns the set-up conditions of a plan, none of them judged.
func Gates(p *plan.Plan) []coach.Gate {
	wants := gateWants([]*plan.Plan{p})
	return wants[:gateLine]
}

// gateWants lists the gates that let any of the plans begin. The bands are those of the first plan.
func gateWants(plans []*plan.Plan) [numGates]coach.Gate {
	card := &plans[0].Card.Setup
	g := [numGates]coach.Gate{
		gateLevel: {
			ID: "wings-level", Label: phrase.LabelWingsLevel.Of(), Unit: "°",
			Want: phrase.WantWithin.Of(phrase.Number("value", card.Bank, -1, "°")),
		},
		gateHeight: {
			ID: "height-held", Label: phrase.LabelHeightHeld.Of(), Unit: "ft/min",
			Want: phrase.WantWithin.Of(phrase.Number("value", card.VerticalSpeed, -1, "ft/min")),
		},
		gateSpeed: {
			ID: "entry-speed", Label: phrase.LabelSteady.Of(), Unit: "kt",
			Want: phrase.WantSteady.Of(phrase.Number("value", card.Spread, -1, "kt")),
		},
		gateBall: {
			ID: "ball", Label: phrase.LabelBall.Of(), Unit: "balls",
			Want: phrase.WantBall.Of(phrase.Number("value", card.Ball, -1, "")),
		},
		gateDeck: {
			ID: "hard-deck", Label: phrase.LabelDeck.Of(), Unit: "ft",
			Want: phrase.AtLeast.Of(phrase.Number("low", room(plans), 0, "ft")),
		},
		gateClearing: {
			ID: "clearing-turns", Label: phrase.LabelClearing.Of(), Unit: "°", Optional: true,
			Want: phrase.WantClearing.Of(phrase.Number("around", 180, 0, "°"), phrase.Number("side", 90, 0, "°")),
		},
		gateLine: {ID: "on-the-line", Label: phrase.LabelLine.Of(), Unit: "°"}, // the line has the words
	}
	if speeds := entrySpeeds(plans); len(speeds) > 0 {
		g[gateSpeed].Label = phrase.LabelEntrySpeed.Of()
		g[gateSpeed].Want = wantSpeeds(speeds, card.Airspeed)
	}
	return g
}

// wantSpeeds words a choice of airspeeds (kt): "95 kt, 100 kt or 120 kt, within 10 kt".
func wantSpeeds(speeds []float64, within float64) phrase.Phrase {
	last := len(speeds) - 1
	if last == 0 {
		return phrase.WantSpeed.Of(
			phrase.Number("speed", speeds[0], -1, "kt"),
			phrase.Number("within", within, -1, "kt"))
	}
	words := phrase.EitherSpeed.Of(
		phrase.Number("first", speeds[last-1], -1, "kt"),
		phrase.Number("second", speeds[last], -1, "kt"))
	for _, v := range slices.Backward(speeds[:last-1]) {
		words = phrase.MoreSpeeds.Of(phrase.Number("first", v, -1, "kt"), phrase.Part("rest", words))
	}
	return phrase.WantSpeeds.Of(phrase.Part("speeds", words), phrase.Number("within", within, -1, "kt"))
}

// entrySpeeds returns the known entry speeds of the plans without duplicates, kt.
func entrySpeeds(plans []*plan.Plan) []float64 {
	var all []float64
	for _, p := range plans {
		if v := p.EntrySpeed(); v > 0 {
			all = append(all, v)
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

// gated are the channels whose means the gates judge, besides bank.
const gated = stream.Set(1<<stream.VerticalSpeed | 1<<stream.Airspeed | 1<<stream.Ball)

// judgeSetup judges the last three seconds of flight, and reports when a gate opens or closes.
func (j *Judge) judgeSetup(s *stream.Sample) {
	now := j.track.Now
	w, full := j.track.Past.Means(now-3, now, gated)
	if !full {
		return
	}
	j.judgeGates(w, s)
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
		if entry := p.EntrySpeed(); entry > 0 {
			known = true
			if math.Abs(v-entry) <= within {
				return true
			}
		}
	}
	return !known
}

// gateList returns the current gates; none before the set-up was first judged.
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
			if line.IsZero() {
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
