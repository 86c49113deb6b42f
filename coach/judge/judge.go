package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/talk"
	"halfturn/coach/track"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// Options say what is to be flown, and how the words are heard.
type Options struct {
	Plan  *plan.Plan
	Deck  float64 // a hard deck besides the card's height above ground, ft MSL; 0 is none
	Voice callout.Options
	// Prompts is how much is said in flight: one of [callout.Prompts]; "" is as the standard has it.
	Prompts string
	// Others are the maneuvers that may be flown instead of the chosen one; none are looked for without them.
	Others []*maneuver.Card
	// Explain finds the causes of what was missed; nil leaves them out.
	Explain Explainer
}

// An Explainer finds causes. It is a pure function of its arguments: it fills Causes and Change, and changes nothing
// else.
type Explainer interface {
	ExplainLeg(p *plan.Plan, l *coach.Leg)
	ExplainSeries(p *plan.Plan, s *coach.Series)
}

// A Shared is what the judges of one station have in common. The zero value is ready for use.
type Shared struct {
	track.Tracker
	common   check.Common
	courses  []*leg.Course // those found at the sample of now
	expected *expected
}

// Step takes the next sample, before the judges do; see [track.Tracker.Step].
func (s *Shared) Step(sample *stream.Sample) bool {
	clear(s.courses)
	s.courses = s.courses[:0]
	return s.Tracker.Step(sample)
}

// course returns the course of a leg that is found now: that of another judge, when it is the same.
func (s *Shared) course(at leg.Start, turn float64, axes ground.Axes) *leg.Course {
	for _, c := range s.courses {
		if c.Is(at, turn) {
			return c
		}
	}
	c := leg.NewCourse(at, turn, axes)
	s.courses = append(s.courses, c)
	return c
}

// A Judge follows one card over a tracker. It is not safe for concurrent use.
type Judge struct {
	opt    Options
	shared *Shared
	track  *track.Tracker // of the shared
	events coach.Events

	between
	setup  setup
	leg    *flight // nil between legs
	series *coach.Series
	talk   *talk.Talk
	mute   bool // nobody hears what is said during a leg
}

// between is what a judge follows between legs.
type between struct {
	level    track.Level
	clearing track.Clearing
	cleared  track.Cleared // before the first leg of the series
	circle   circle
	ended    float64 // stream time at which the last leg ended; NaN before it
	tick     float64 // when the slow work is due
}

// New makes a judge of a station. among are the plans one of which is about to be flown: the set-up lets any of them
// begin. Without them it is the judge's own plan alone.
func New(s *Shared, o Options, among ...*plan.Plan) *Judge {
	j := &Judge{shared: s, track: &s.Tracker, opt: o}
	j.talk = talk.New(o.Plan, o.Voice, &j.events, j.endLeg)
	j.talk.Prompt(o.Prompts)
	j.reset()
	if len(among) == 0 {
		among = []*plan.Plan{o.Plan}
	}
	j.setup.expected = s.expect(among)
	return j
}

// Choose changes the plan from here on. Break comes first.
func (j *Judge) Choose(p *plan.Plan) {
	j.opt.Plan = p
	j.talk.Choose(p)
	j.setup.expected = j.shared.expect([]*plan.Plan{p})
}

// Prompt sets how much is said in flight: one of [callout.Prompts].
func (j *Judge) Prompt(how string) { j.talk.Prompt(how) }

// Mute says whether nobody hears what the judge says during a leg. It says nothing then, and counts no corrections;
// limits are watched all the same. A leg that is heard from its middle on is coached from there.
func (j *Judge) Mute(on bool) {
	if j.mute && !on && j.leg != nil {
		j.talk.Skip()
	}
	j.mute = on
}

// Plan returns what is to be flown.
func (j *Judge) Plan() *plan.Plan { return j.opt.Plan }

// Take returns the events since the last call. The slice is valid until the next call.
func (j *Judge) Take() []coach.Event { return j.events.Take() }

func (j *Judge) emit(e coach.Event) { j.events.Put(e) }

// Step judges a sample that the tracker has taken.
func (j *Judge) Step(s *stream.Sample) {
	now := j.track.Now
	j.talk.Watch(now, s, j.aboveDeck(s))
	switch {
	case j.leg != nil:
		j.fly(s)
	case now >= j.tick:
		j.tick = now + 0.1
		j.clearing.Add(now, j.track.Turned, s.Value(stream.Bank))
		j.settle(s)
	}
}

// Break ends whatever is under way, since the stream jumped or ended, or another choice was made. The tracker is to be
// cleared after.
func (j *Judge) Break(reason phrase.Phrase) {
	if j.leg != nil {
		e := leg.End{Outcome: coach.BrokenOff, Reason: reason, External: true}
		if flown, ok := j.leg.Recovering(); ok {
			e = flown
		}
		j.endLeg(e)
	}
	j.closeSeries(true)
	j.clearing.Clear()
	j.level.Clear()
	j.talk.Break()
	j.setup.clear()
	j.reset()
}

func (j *Judge) reset() {
	j.circle = circle{reported: math.NaN()}
	j.ended, j.tick = math.NaN(), math.Inf(-1)
}

// settle does the slow work between legs: the reference, the set-up, and the question whether a leg has begun.
func (j *Judge) settle(s *stream.Sample) {
	if !math.IsNaN(j.ended) && j.track.Now-j.ended > j.opt.Plan.Card.Series.Gap {
		j.closeSeries(false)
	}
	j.level.Renew(j.track)
	j.watchCircle()
	j.judgeSetup(s)
	if side, ok := j.committed(); ok {
		j.beginLeg(side)
	}
}

// committed reports whether a leg is being flown, and to which side (1 right, −1 left).
func (j *Judge) committed() (side float64, ok bool) {
	ref := j.level.Reference()
	if !ref.OK {
		return 0, false
	}
	w, _ := j.track.Past.Rates(j.track.Now - 0.4)
	turned := w.Turned - ref.Turned
	side = math.Copysign(1, turned)
	card := j.opt.Plan.Card
	commit := &card.Commit
	switch {
	case math.Abs(turned) > card.Turn/2:
		return 0, false // a turn that long without commitment is just a turn
	case commit.Bank > 0:
		ok = side*w.Bank >= commit.Bank
	default:
		ok = math.Abs(turned) >= commit.Turned && w.Pitch-ref.Pitch >= commit.Nose && side*(w.Bank-ref.Bank) > 3
	}
	return side, ok
}

// UnderWay returns when the leg that is being flown began, and how far it has turned, °; ok is false between legs.
func (j *Judge) UnderWay() (start, farthest float64, ok bool) {
	if j.leg == nil {
		return 0, 0, false
	}
	return j.leg.Start, j.leg.Farthest, true
}

// Misfit compares the leg that is being flown with the card; see [plan.Plan.Misfit]. It is NaN between legs.
func (j *Judge) Misfit() float64 {
	if j.leg == nil {
		return math.NaN()
	}
	return j.opt.Plan.Misfit(j.leg.Attitudes(), false)
}
