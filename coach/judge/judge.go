package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/aero"
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

// Options say what is flown and how callouts are timed.
type Options struct {
	Plan  *plan.Plan
	Deck  float64 // a hard deck besides the card's height above ground, ft MSL; 0 is none
	Voice callout.Options
	// Prompts is how much is said in flight: one of [callout.Prompts]; "" follows the standard.
	Prompts string
	// Others are the maneuvers that a missed leg is compared with; nil compares it with none.
	Others []*maneuver.Card
	// Dismiss is the misfit from which a leg is none of the card's and is passed over without a word; 0 reports each.
	Dismiss float64
	// Explain finds why checks were missed; nil leaves causes out.
	Explain Explainer
}

// An Explainer finds causes. It must be pure, and may change only Causes and Change.
type Explainer interface {
	ExplainLeg(p *plan.Plan, l *coach.Leg)
	ExplainSeries(p *plan.Plan, s *coach.Series)
}

// A Shared is the state that all judges of one station use. The zero value is ready for use.
type Shared struct {
	track.Tracker
	common   check.Common
	courses  []*leg.Course // of the legs found at the current sample
	expected *expected
}

// Step takes the next sample; call it before the judges' Step. See [track.Tracker.Step].
func (s *Shared) Step(sample *stream.Sample) bool {
	clear(s.courses)
	s.courses = s.courses[:0]
	return s.Tracker.Step(sample)
}

// course returns the course of a leg found at the current sample. Judges that find the same leg share one.
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
	mute   bool  // no cues or corrections during a leg
	drill  Drill // nil while none is flown
}

// A Drill counts the legs in which one cause is drilled, and says what belongs to it.
type Drill interface {
	talk.Only
	Take(l *coach.Leg) // counts a leg, and notes in it how the drill stands
}

// between is the state that a judge needs between legs.
type between struct {
	level    track.Level
	clearing track.Clearing
	cleared  track.Cleared // before the first leg of the series
	circle   circle
	ended    float64 // stream time at which the last leg ended; NaN before the first
	flown    float64 // the side of the last leg: 1 right, −1 left, 0 before the first
	tick     float64 // stream time at which settle runs next
}

// New makes a judge of a station. among lists the plans that may be flown next: the set-up is ready when any of them
// could begin. The default is the plan of the options.
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

// Choose changes the plan. Call Break first.
func (j *Judge) Choose(p *plan.Plan) {
	j.opt.Plan, j.drill = p, nil
	j.talk.Choose(p)
	j.setup.expected = j.shared.expect([]*plan.Plan{p})
}

// Prompt sets how much is said in flight: one of [callout.Prompts].
func (j *Judge) Prompt(how string) { j.talk.Prompt(how) }

// Practice has a drill flown until something is chosen. Call it between legs.
func (j *Judge) Practice(d Drill) {
	j.drill = d
	j.talk.Keep(d)
}

// Mute turns cues and corrections during a leg off or on; they are on at first. A mute judge counts no corrections, and
// watches limits as before. Unmuted in the middle of a leg, it coaches the rest and passes over what is behind.
func (j *Judge) Mute(on bool) {
	if j.mute && !on && j.leg != nil {
		j.talk.Skip()
	}
	j.mute = on
}

// Plan returns the plan that the judge follows.
func (j *Judge) Plan() *plan.Plan { return j.opt.Plan }

// Take returns the events since the last call. The slice is valid until the next call.
func (j *Judge) Take() []coach.Event { return j.events.Take() }

func (j *Judge) emit(e coach.Event) { j.events.Put(e) }

// Step judges the sample that the tracker took last.
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

// Break ends what is under way, because the stream jumped or ended or the choice changed. Clear the tracker afterwards.
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
	j.ended, j.flown, j.tick = math.NaN(), 0, math.Inf(-1)
}

// settle does what is due ten times per second between legs: it renews the reference, judges the set-up, and looks for
// the beginning of a leg.
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

// committed reports whether the turn meets the card's commitment, and its side (1 right, −1 left).
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
		return 0, false // a leg would have committed long before
	case commit.Bank > 0:
		ok = side*w.Bank >= commit.Bank && math.Abs(turned) >= commit.Turned &&
			(commit.Sinks == 0 || -w.Climb >= commit.Sinks) && j.nearPivotal(commit.Pivotal)
	default:
		ok = math.Abs(turned) >= commit.Turned && w.Pitch-ref.Pitch >= commit.Nose && side*(w.Bank-ref.Bank) > 3
	}
	return side, ok
}

// nearPivotal reports whether the height above the ground is at most some times the pivotal altitude; 0 asks nothing.
func (j *Judge) nearPivotal(times float64) bool {
	if times == 0 {
		return true
	}
	height, ok := j.track.Last.Get(stream.Height)
	speed, has := j.track.Last.Get(stream.GroundSpeed)
	return ok && has && height <= times*aero.PivotalAltitude(speed)
}

// UnderWay returns when the leg being flown began (stream time, s) and its farthest turn angle (°). ok is false between
// legs.
func (j *Judge) UnderWay() (start, farthest float64, ok bool) {
	if j.leg == nil {
		return 0, 0, false
	}
	return j.leg.Start, j.leg.Farthest, true
}

// Misfit compares the leg being flown with the card; see [plan.Plan.Misfit]. It is NaN between legs.
func (j *Judge) Misfit() float64 {
	if j.leg == nil {
		return math.NaN()
	}
	return j.opt.Plan.Misfit(j.leg.Attitudes(), false)
}
