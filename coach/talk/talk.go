package talk

import (
	"cmp"
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/leg"
	"halfturn/coach/plan"
	"halfturn/coach/track"
	"halfturn/stream"
)

// A Talk decides what is said to one station. It is not safe for concurrent use.
type Talk struct {
	plan     *plan.Plan
	voice    *callout.Voice
	out      *coach.Events
	knockOff func(leg.End)

	now     float64 // stream time, s
	leg     *line   // nil between legs
	ended   float64 // stream time at which the last leg ended, s; NaN before it
	limits  limits
	stop    stop
	prompts string // one of package callout
	fade    fade
	setup   setup
	told    string // the maneuver last said to be flown instead of the chosen one
	only    Only   // nil: all of it
}

// Only is a part of a maneuver to which alone cues, corrections and tones belong.
type Only interface {
	HasCue(of float64) bool // by the turn angle it is about
	HasWatch(id string) bool
	HasCheck(id string) bool
}

// A Leg is what is known of the leg being flown.
type Leg interface {
	Moment() *check.Moment // of now
	Entry() *check.Moment
	Side() float64                           // 1 right, −1 left
	Rates() *track.Rates                     // of the last half second, not mirrored
	Until(turn float64) (s float64, ok bool) // predicts the time to a turn angle
	SoFar(check int) coach.Check             // grades a check of the card by what was seen so far
	// Pivotal predicts the altitude (ft above sea level) at which a pylon stays on the wing where a turn angle is.
	Pivotal(turn float64) (ft float64, ok bool)
	Expected() plan.Choice // the turn that is next in the order of the card
	Exiting() bool         // the wings have come level at the end of the turn
}

// New makes the talk of a plan. Its callouts are put into out; knockOff ends the leg when a limit asks for it.
func New(p *plan.Plan, o callout.Options, out *coach.Events, knockOff func(leg.End)) *Talk {
	t := &Talk{voice: callout.New(o), out: out, knockOff: knockOff, ended: math.NaN(), prompts: callout.PromptsCard}
	t.Choose(p)
	return t
}

// Choose changes the plan from here on. Break comes first.
func (t *Talk) Choose(p *plan.Plan) {
	t.plan, t.told, t.only = p, "", nil
	t.fade.begin(p.Card)
}

// Keep has only what belongs to a part said in flight, until something is chosen; nil is all of it. Safety, the set-up,
// and the way back from a limit are said as before.
func (t *Talk) Keep(only Only) { t.only = only }

// Prompt sets how much is said in flight: one of [callout.Prompts]; "" is [callout.PromptsCard].
func (t *Talk) Prompt(how string) { t.prompts = cmp.Or(how, callout.PromptsCard) }

// Prompts returns how much is said in flight, which is never [callout.PromptsCard].
func (t *Talk) Prompts() string {
	switch {
	case t.prompts != callout.PromptsCard:
		return t.prompts
	case t.plan.Card.Prompts != "":
		return t.plan.Card.Prompts
	}
	return callout.PromptsFade
}

// Break forgets what was said, since the stream jumped or ended, or another choice was made. Warnings that are shown
// are taken down. What was met in the legs before is kept.
func (t *Talk) Break() {
	t.clearLimits()
	t.clearStop()
	t.voice.Reset()
	t.setup = setup{}
	t.ended = math.NaN()
}

// Watch judges a sample against the limits at a stream time (s). above is the height above the hard deck, ft; NaN when
// it is not known.
func (t *Talk) Watch(now float64, s *stream.Sample, above float64) {
	t.now = now
	t.watchLimits(s, above)
	t.watchStop()
}

// Begin takes a leg that has begun.
func (t *Talk) Begin(l Leg) {
	t.clearStop()
	t.leg = newLine(t.plan.Card, l)
	t.setup = setup{}
}

// Skip passes over what belongs to the turn flown so far: before the leg committed itself, or while nobody heard.
func (t *Talk) Skip() { t.leg.skip(t.plan.Card, t.leg.Moment().Turn) }

// Fly decides what is said at this moment of the leg.
func (t *Talk) Fly() {
	t.look()
	t.sayStalling()
	if !t.leg.Exiting() {
		t.lookAtWatches()
		t.sayUrgent()
		t.sendCues()
		if !t.sayCue() {
			t.sayWatch()
		}
	}
	t.sayAfter()
}

// End takes that the leg is over, and returns how many corrections were given in it.
func (t *Talk) End() int {
	said := t.leg.said
	t.ended, t.leg = t.leg.Moment().Time(), nil
	return said
}

// Sent returns the turn angles of the cues that were sent and are still ahead.
func (t *Talk) Sent() (turns []float64) {
	for i, q := range t.plan.Card.AllCues[:t.leg.sent] {
		if q.Turn > t.leg.Moment().Turn && t.leg.cues[i].sent {
			turns = append(turns, q.Turn)
		}
	}
	return turns
}

// put sends a callout of now.
func (t *Talk) put(k coach.Callout) {
	k.Time = coach.Round(t.now, 3)
	if t.leg != nil && k.Turn == 0 && k.Kind != coach.Clear {
		k.Turn = coach.Round(t.leg.Moment().Turn, 1)
	}
	t.out.Put(&k)
}
