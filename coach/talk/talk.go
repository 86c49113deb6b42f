package talk

import (
	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/leg"
	"halfturn/coach/plan"
	"halfturn/stream"
)

// A Talk decides what is said to one station. It is not safe for concurrent use.
type Talk struct {
	plan   *plan.Plan
	voice  *callout.Voice
	out    *coach.Events
	now    float64 // stream time, s
	leg    *line   // nil between legs
	ended  float64 // stream time at which the last leg ended, s
	limits limits
	told   string // the maneuver last said to be flown instead of the chosen one

	knockOff func(leg.End)
}

// New makes the talk of a plan. Its callouts are put into out; knockOff ends the leg when a limit asks for it.
func New(p *plan.Plan, o callout.Options, out *coach.Events, knockOff func(leg.End)) *Talk {
	return &Talk{plan: p, voice: callout.New(o), out: out, knockOff: knockOff}
}

// Choose changes the plan from here on. Break comes first.
func (t *Talk) Choose(p *plan.Plan) { t.plan, t.told = p, "" }

// Break forgets what was said, since the stream jumped or ended, or another choice was made. Warnings that are shown
// are taken down.
func (t *Talk) Break() {
	t.clearLimits()
	t.voice.Reset()
}

// Watch judges a sample against the limits at a stream time (s). above is the height above the hard deck, ft; NaN when
// it is not known.
func (t *Talk) Watch(now float64, s *stream.Sample, above float64) {
	t.now = now
	t.watchLimits(s, above)
}

// Begin takes a leg that has begun. until predicts the time to a turn angle, s.
func (t *Talk) Begin(l *leg.Leg, until func(turn float64) (s float64, ok bool)) {
	t.leg = &line{Leg: l, until: until}
	t.leg.begin(t.plan.Card)
}

// Skip passes over what belongs to the turn that was flown before the leg committed itself.
func (t *Talk) Skip() { t.leg.skip(t.plan.Card, t.leg.Cur.Turn) }

// Fly decides what is said at this moment of the leg.
func (t *Talk) Fly() {
	t.sendCues()
	if t.sayCue() {
		return
	}
	if !t.sayAfter() {
		t.sayWatch()
	}
}

// End takes that the leg is over, and returns how many corrections were given in it.
func (t *Talk) End() int {
	said := t.leg.said
	t.ended, t.leg = t.leg.Cur.Time(), nil
	return said
}

// Sent returns the turn angles of the cues that were sent and are still ahead.
func (t *Talk) Sent() (turns []float64) {
	for _, q := range t.plan.Card.AllCues[:t.leg.sent] {
		if q.Turn > t.leg.Cur.Turn {
			turns = append(turns, q.Turn)
		}
	}
	return turns
}

// Shallow says that a turn of an angle was too shallow to be a leg.
func (t *Talk) Shallow(turned float64) {
	k := &coach.Callout{
		Time:  coach.Round(t.now, 3),
		Kind:  coach.Result,
		ID:    "shallow",
		Words: "Too shallow to count",
		Tone:  coach.Missed,
		Turn:  coach.Round(turned, 1),
	}
	if !t.voice.Say(t.now, callout.ResultLevel, k.Words) {
		k.Words = ""
	}
	t.out.Put(k)
}
