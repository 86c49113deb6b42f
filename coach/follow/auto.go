package follow

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// An Auto follows one station with every card at once, and assigns each leg to the card that it clearly fits. A leg
// that fits none clearly is reported as a series of the maneuver Unclear. Its output depends only on samples and calls.
// It is not safe for concurrent use.
//
// What is shown and said comes from one judge, the lead: that of the maneuver decided last. During a leg the lead gives
// cues and corrections only once it is clear that the leg is its own.
type Auto struct {
	shared  judge.Shared
	judges  []*judge.Judge
	lead    int
	clear   bool    // the leg under way is certainly the lead's
	looked  float64 // turn angle at which that was last examined, °
	heard   int     // the judge that coaches the leg under way; nobody until it is clear
	slots   []*slot // legs not decided yet, the oldest first
	held    [][]*coach.Series
	fates   []map[float64]*fate // by judge, by the start of the leg
	before  *coach.Decision     // of the last leg; nil when it was unclear
	pattern int                 // the judge of a maneuver of several turns; nobody without one
	decided float64             // stream time at which the last leg ended that a card got, s
	warned  map[string]int      // the judge of each safety callout that is shown
	events  coach.Events
}

// NewAuto follows with all plans; lead is the index of the one shown until a maneuver has been flown.
func NewAuto(o judge.Options, plans []*plan.Plan, lead int) *Auto {
	a := &Auto{lead: lead, heard: nobody, held: make([][]*coach.Series, len(plans)), warned: map[string]int{}}
	o.Others = nil // each leg is compared with all cards
	for _, p := range plans {
		o.Plan, o.Dismiss = p, 0
		switch {
		case p.Card.Several():
			o.Dismiss = mostPattern
		case p.Card.Ground.About != "":
			o.Dismiss = mostAbout
		}
		j := judge.New(&a.shared, o, plans...)
		j.Mute(true)
		a.judges = append(a.judges, j)
		a.fates = append(a.fates, map[float64]*fate{})
	}
	a.pattern = patternJudge(a.judges)
	return a
}

// Plan returns the plan of the lead.
func (a *Auto) Plan() *plan.Plan { return a.judges[a.lead].Plan() }

// Frame returns the current state as the lead sees it. Until it is clear that the leg is the lead's, it names nothing
// to fly next.
func (a *Auto) Frame() *coach.Frame {
	f := a.judges[a.lead].Frame()
	if f.State == "leg" && !a.clear {
		f.Unclear, f.Phase, f.Next, f.Cues = true, "", nil, nil
	}
	return f
}

// Take returns the events since the last call. The slice is valid until the next call.
func (a *Auto) Take() []coach.Event { return a.events.Take() }

// Prompt sets how much is said in flight; see [Single.Prompt].
func (a *Auto) Prompt(how string) {
	for _, j := range a.judges {
		j.Prompt(how)
	}
}

// Step takes the next sample; see [Single.Step].
func (a *Auto) Step(s *stream.Sample) bool {
	if !a.shared.Step(s) {
		return false
	}
	for i, j := range a.judges {
		j.Step(s)
		a.collect(i)
	}
	a.lookAhead()
	if len(a.slots) > 0 {
		a.settle(false)
	}
	for i := range a.judges {
		if len(a.held[i]) > 0 {
			a.release(i)
		}
	}
	a.listen()
	return true
}

// Break ends what is under way and decides the waiting legs; see [Single.Break].
func (a *Auto) Break(reason phrase.Phrase) {
	for i, j := range a.judges {
		j.Break(reason)
		a.collect(i)
	}
	a.shared.Clear()
	a.settle(true)
	for i := range a.judges {
		a.release(i)
	}
	a.clear, a.looked, a.before = false, 0, nil
	for i := range a.fates {
		clear(a.fates[i])
	}
	a.listen()
}

// listen lets the lead speak during a leg that is clearly its own, and mutes all other judges.
func (a *Auto) listen() {
	heard := nobody
	if a.clear {
		heard = a.lead
	}
	if heard == a.heard {
		return
	}
	for i, j := range a.judges {
		j.Mute(i != heard)
	}
	a.heard = heard
}

// SetLine sets or clears the ground line; see [Single.SetLine].
func (a *Auto) SetLine(w coach.LineChoice) error { return a.shared.SetLine(w) }

// SetAbout chooses a point on the ground to fly about, or clears what was chosen; see [Single.SetAbout].
func (a *Auto) SetAbout(w coach.AboutChoice) error {
	lead := a.judges[a.lead]
	w = lead.About(w)
	if err := a.shared.SetAbout(w, lead.UsualRadius()); err != nil {
		return err
	}
	for _, j := range a.judges {
		j.Rechoose(w.Clear)
	}
	lead.Chose(w)
	a.collect(a.lead)
	return nil
}

// Sight returns the chosen ground line and reference point.
func (a *Auto) Sight() ground.Sight { return a.shared.Sight }

// Succeed takes over the ground line and reference point of the previous follower of the station.
func (a *Auto) Succeed(sight ground.Sight) { a.shared.Sight = sight }

// collect takes the events of one judge. Its legs and series wait for a decision; other events are passed on only from
// the lead.
func (a *Auto) collect(i int) {
	for _, e := range a.judges[i].Take() {
		switch e := e.(type) {
		case *coach.Leg:
			a.addLeg(i, e)
		case *coach.Series:
			a.held[i] = append(a.held[i], e)
		case *coach.Callout:
			a.passCallout(i, e)
		default:
			if i == a.lead {
				a.events.Put(e)
			}
		}
	}
}

// passCallout passes on the lead's callouts: safety and set-up always, others once the leg is clearly its own.
func (a *Auto) passCallout(i int, k *coach.Callout) {
	switch k.Kind {
	case coach.Clear:
		by, warned := a.warned[k.ID]
		if warned && by != i || !warned && i != a.heard { // what was not a warning is a cue that is taken back
			return
		}
		delete(a.warned, k.ID)
	case coach.Safety:
		if i != a.lead {
			return
		}
		a.warned[k.ID] = i
	case coach.SetUpSaid, coach.Said, coach.Done:
		if i != a.lead {
			return
		}
	case coach.NextTime:
		decided := a.before != nil && a.named(a.before.Maneuver) == i
		if i != a.lead || !a.clear && !decided {
			return
		}
	default:
		if i != a.lead || !a.clear {
			return
		}
	}
	a.events.Put(k)
}

// earliest is the turn angle from which a leg under way is examined, °.
const earliest = 90.0

// lookAhead examines the leg under way every 10° from earliest on. The maneuver is clear at twice the margin that a leg
// needs when it is over.
func (a *Auto) lookAhead() {
	farthest, flying := 0.0, false
	for _, j := range a.judges {
		if _, turn, ok := j.UnderWay(); ok {
			flying, farthest = true, max(farthest, turn)
		}
	}
	if !flying {
		a.looked, a.clear = 0, false
		return
	}
	if a.clear || farthest < max(earliest, a.looked+10) {
		return
	}
	a.looked = farthest
	var fits []coach.Fit
	for i, j := range a.judges {
		if i == a.pattern && a.lead != i { // it may be any turn, as long as no others came before
			continue
		}
		if m := j.Misfit(); !math.IsNaN(m) {
			fits = append(fits, coach.Fit{Maneuver: j.Plan().Card.Name, Misfit: m})
		}
	}
	if d := coach.Decide(fits); d.Maneuver != coach.Unclear && d.Margin >= 2*coach.LeastMargin {
		a.lead, a.clear = a.named(d.Maneuver), true
	}
}

func (a *Auto) named(maneuver string) int {
	return slices.IndexFunc(a.judges, func(j *judge.Judge) bool { return j.Plan().Card.Name == maneuver })
}
