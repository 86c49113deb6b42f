package coach

import (
	"math"
	"slices"

	"halfturn/stream"
)

// An Auto follows one station with every card at once, and claims a leg for the card that it
// fits clearly. Legs that fit none clearly are told as a series of the maneuver Unclear. It is,
// like a Coach, a pure function of the samples, and not safe for concurrent use.
//
// What is shown and said comes from one coach, the lead: that of the maneuver decided last.
// During a leg, its cues and corrections are held back until it is clear which maneuver it is.
type Auto struct {
	coaches []*Coach
	lead    int
	clear   bool    // the leg under way is the lead's
	looked  float64 // turn angle at which that was last looked at
	slots   []*slot // legs not decided yet, the oldest first
	held    [][]*Series
	fates   []map[float64]*fate // by coach, by the start of the leg
	before  *Decision           // that of the last leg; nil when it was unclear
	warned  map[string]int      // safety callouts on show, by which coach
	events  []Event
}

// A slot is one stretch of flight that one or more coaches took for a leg.
type slot struct {
	from, to float64
	legs     []*Leg // by coach; nil where it saw none
	others   []ownedLeg
	tried    bool // was unclear by itself
	decision Decision
}

type ownedLeg struct {
	coach int
	start float64
}

// A fate is what was decided of a leg: the decision in its favor, nil when it was another's.
type fate struct{ claimed *Decision }

// NewAuto follows with all plans; lead is the one shown until something has been flown.
func NewAuto(o Options, plans []*Plan, lead int) *Auto {
	a := &Auto{lead: lead, held: make([][]*Series, len(plans)), warned: map[string]int{}}
	for _, p := range plans {
		o.Plan = p
		c := New(o)
		c.expect(plans...)
		a.coaches = append(a.coaches, c)
		a.fates = append(a.fates, map[float64]*fate{})
	}
	return a
}

// Lead returns the coach whose frames and callouts count now.
func (a *Auto) Lead() *Coach { return a.coaches[a.lead] }

// Frame is the lead's, without what is to be flown by while it is not clear that the leg is the lead's.
func (a *Auto) Frame() *Frame {
	f := a.Lead().Frame()
	if f.State == "leg" && !a.clear {
		f.Unclear, f.Phase, f.Next, f.Cues = true, "", nil, nil
	}
	return f
}

// Take returns the events since the last call, until the next call of Step.
func (a *Auto) Take() []Event {
	e := a.events
	a.events = a.events[:0]
	return e
}

// Step takes the next sample; see [Coach.Step].
func (a *Auto) Step(s *stream.Sample) bool {
	ok := true
	for i, c := range a.coaches {
		ok = c.Step(s)
		a.collect(i, c)
	}
	if !ok {
		return false
	}
	a.lookAhead()
	if len(a.slots) > 0 {
		a.settle(false)
	}
	for i := range a.coaches {
		if len(a.held[i]) > 0 {
			a.release(i)
		}
	}
	return true
}

// Break ends whatever is under way, and decides what is left; see [Coach.Break].
func (a *Auto) Break(reason string) {
	for i, c := range a.coaches {
		c.Break(reason)
		a.collect(i, c)
	}
	a.settle(true)
	for i := range a.coaches {
		a.release(i)
	}
	a.clear, a.looked, a.before = false, 0, nil
	for i := range a.fates {
		clear(a.fates[i])
	}
}

// SetLine sets or clears the ground line; see [Coach.SetLine].
func (a *Auto) SetLine(w LineChoice) error {
	for _, c := range a.coaches {
		if err := c.SetLine(w); err != nil {
			return err
		}
	}
	return nil
}

// Succeed takes over the ground line of another coach of the same station.
func (a *Auto) Succeed(old *Coach) {
	for _, c := range a.coaches {
		c.Succeed(old)
	}
}

// collect takes the events of one coach: its legs and series wait for a decision, of the rest
// only the lead's is passed on.
func (a *Auto) collect(i int, c *Coach) {
	for _, e := range c.Take() {
		switch e := e.(type) {
		case *Leg:
			a.addLeg(i, e)
		case *Series:
			a.held[i] = append(a.held[i], e)
		case *Callout:
			a.passCallout(i, e)
		default:
			if i == a.lead {
				a.events = append(a.events, e)
			}
		}
	}
}

// passCallout lets the lead's callouts through: safety always, the others once it is clear.
func (a *Auto) passCallout(i int, k *Callout) {
	switch k.Kind {
	case Clear:
		if by, on := a.warned[k.ID]; !on || by != i {
			return
		}
		delete(a.warned, k.ID)
	case Safety:
		if i != a.lead {
			return
		}
		a.warned[k.ID] = i
	default:
		if i != a.lead || !a.clear {
			return
		}
	}
	a.events = append(a.events, k)
}

// addLeg puts a leg into the slot it shares most of its time with.
func (a *Auto) addLeg(i int, l *Leg) {
	for _, s := range a.slots {
		shared := math.Min(s.to, l.End) - math.Max(s.from, l.Start)
		if s.tried || shared < 0.5*math.Min(s.to-s.from, l.End-l.Start) {
			continue
		}
		if s.legs[i] != nil {
			s.others = append(s.others, ownedLeg{i, l.Start})
			return
		}
		s.legs[i] = l
		s.from, s.to = math.Min(s.from, l.Start), math.Max(s.to, l.End)
		return
	}
	s := &slot{from: l.Start, to: l.End, legs: make([]*Leg, len(a.coaches))}
	s.legs[i] = l
	a.slots = append(a.slots, s)
}

// lookAhead asks during a leg, every 10° from half its turn on, whether it is clear yet, with twice the margin.
func (a *Auto) lookAhead() {
	farthest, flying := 0.0, false
	for _, c := range a.coaches {
		if c.leg != nil {
			flying, farthest = true, math.Max(farthest, c.leg.farthest)
		}
	}
	if !flying {
		a.looked, a.clear = 0, false
		return
	}
	if a.clear || farthest < math.Max(earliest, a.looked+10) {
		return
	}
	a.looked = farthest
	var fits []Fit
	for _, c := range a.coaches {
		if c.leg == nil {
			continue
		}
		if m := c.plan.Misfit(c.leg.trace, false); !math.IsNaN(m) {
			fits = append(fits, Fit{c.plan.Card.Name, m})
		}
	}
	if d := Decide(fits); d.Maneuver != Unclear && d.Margin >= 2*LeastMargin {
		a.lead, a.clear = a.named(d.Maneuver), true
	}
}

// earliest is the turn from which on a leg under way is judged, °.
const earliest = 90.0

func (a *Auto) named(maneuver string) int {
	return slices.IndexFunc(a.coaches, func(c *Coach) bool { return c.plan.Card.Name == maneuver })
}

// settle decides the slots that are complete, and closes what waited for that.
func (a *Auto) settle(over bool) {
	for len(a.slots) > 0 {
		s := a.slots[0]
		switch {
		case !over && a.growing(s):
			return
		case !s.tried:
			s.decision, s.tried = a.decide(s), true
			if w := a.favored(s); w >= 0 {
				a.claim(s, w)
				continue
			}
			if s.decision.Maneuver != Unclear {
				a.claim(s, a.named(s.decision.Maneuver))
				continue
			}
		}
		// Unclear: the leg after it may settle it, as they often belong together.
		if len(a.slots) > 1 {
			if next := a.slots[1]; over || !a.growing(next) {
				a.claimWith(s, next)
				continue
			}
			return
		}
		if !over && a.coaches[0].now-s.to < patience {
			return
		}
		a.claim(s, -1)
	}
}

// patience is how long an unclear leg waits for the next one, s: the longest pause within a series.
const patience = 90.0

// growing tells whether a coach still flies a leg that belongs to the slot.
func (a *Auto) growing(s *slot) bool {
	return slices.ContainsFunc(a.coaches, func(c *Coach) bool { return c.leg != nil && c.leg.start < s.to-1 })
}

// decide compares the legs of a slot, each with the card of the coach that saw it.
func (a *Auto) decide(slots ...*slot) Decision {
	var fits []Fit
	for i, c := range a.coaches {
		sum, n := 0.0, 0.0
		for _, s := range slots {
			if s.legs[i] != nil {
				sum, n = sum+c.plan.Misfit(s.legs[i].Trace, s.legs[i].Outcome == Finished), n+1
			}
		}
		if n == float64(len(slots)) && !math.IsNaN(sum) {
			fits = append(fits, Fit{c.plan.Card.Name, round(sum/n, 3)})
		}
	}
	return Decide(fits)
}

// favored settles an unclear leg by the series it would go on with: the maneuver of the leg
// before, when both together are clear. −1 when there is none.
func (a *Auto) favored(s *slot) int {
	if s.decision.Maneuver != Unclear || a.before == nil {
		return -1
	}
	w := a.named(a.before.Maneuver)
	var fits []Fit
	for _, f := range s.decision.Fits {
		if j := slices.IndexFunc(a.before.Fits, func(g Fit) bool { return g.Maneuver == f.Maneuver }); j >= 0 {
			fits = append(fits, Fit{f.Maneuver, round((f.Misfit+a.before.Fits[j].Misfit)/2, 3)})
		}
	}
	d := Decide(fits)
	if w < 0 || d.Maneuver != a.before.Maneuver || !a.claimed(w) {
		return -1
	}
	s.decision = d
	return w
}

// claimed tells whether a coach has a series under way with a leg that is surely its own.
func (a *Auto) claimed(i int) bool {
	c := a.coaches[i]
	legs := []Leg{}
	if c.series != nil {
		legs = c.series.Legs
	}
	for _, s := range a.held[i] {
		legs = append(legs, s.Legs...)
	}
	return slices.ContainsFunc(legs, func(l Leg) bool { f := a.fates[i][l.Start]; return f != nil && f.claimed != nil })
}

// claimWith decides an unclear leg together with the next: when both together are clear, and
// the maneuver is one of several legs, they are of that maneuver.
func (a *Auto) claimWith(s, next *slot) {
	d := a.decide(s, next)
	if w := a.named(d.Maneuver); w >= 0 && a.coaches[w].plan.Card.Series.Legs > 1 && next.from-s.to < a.coaches[w].plan.Card.Series.Gap {
		s.decision, next.decision, next.tried = d, d, true
		a.claim(s, w)
		a.claim(next, w)
		return
	}
	a.claim(s, -1)
}

// claim gives the oldest slot to a coach, −1 to none, tells of its leg, and closes the series
// that waited for it.
func (a *Auto) claim(s *slot, w int) {
	a.slots = slices.DeleteFunc(a.slots, func(x *slot) bool { return x == s })
	for i, l := range s.legs {
		if l == nil {
			continue
		}
		f := &fate{}
		if i == w {
			f.claimed = &s.decision
		}
		a.fates[i][l.Start] = f
	}
	for _, o := range s.others {
		a.fates[o.coach][o.start] = &fate{}
	}
	a.before = nil
	if w >= 0 {
		a.lead, a.before = w, &s.decision
	} else {
		a.tellUnclear(s)
	}
	for i := range a.coaches {
		a.prune(i)
		if i == w {
			l := *s.legs[i]
			l.Number = a.number(i, l.Start)
			a.events = append(a.events, &l)
		}
		a.release(i)
	}
}

// tellUnclear tells of a leg that is claimed by no card: what was flown, ungraded.
func (a *Auto) tellUnclear(s *slot) {
	i := slices.IndexFunc(s.legs, func(l *Leg) bool { return l != nil })
	if len(s.decision.Fits) > 0 {
		i = a.named(s.decision.Fits[0].Maneuver)
	}
	l := *s.legs[i]
	if l.Reason == "" {
		l.Reason = "it fits no maneuver clearly"
	}
	l.Number, l.Checks, l.Causes, l.Change, l.Verdict, l.Score, l.Grade = 1, []Check{}, []Cause{}, "", NotMeasured, 0, ""
	card := a.coaches[i].plan
	a.events = append(a.events, &l, &Series{Maneuver: Unclear, Standard: card.Card.Standard, Aircraft: card.Aircraft.Name, Verdict: NotMeasured,
		Checks: []Check{}, Causes: []Cause{}, Legs: []Leg{l}, Decision: &s.decision})
}
