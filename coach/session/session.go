// Package session turns the datagrams of one station into coached flight: it decodes them, keeps the time base,
// coaches, keeps the series flown, and passes messages to its output. It has no clock, socket or file: live stations
// and recordings run through the same code.
package session

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/cause"
	"halfturn/coach/follow"
	"halfturn/coach/ground"
	"halfturn/coach/judge"
	"halfturn/coach/measure"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/probe"
	"halfturn/coach/score"
	"halfturn/stream"
	"halfturn/stream/pack"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// An Output receives what a station's session produces. Calls for one station come from one goroutine, in order. The
// arguments are valid only during the call, except the bodies of messages, which are never changed afterwards.
type Output interface {
	// Event takes a message that must reach every listener.
	Event(m message.Message)
	// Frame takes the present state; only the latest counts.
	Frame(station string, f *coach.Frame)
	// Watched reports whether anybody needs frames of the station.
	Watched(station string) bool
}

// Options say how a station is followed.
type Options struct {
	Name    string // of the station
	Address string // of the sender
	Station pipeline.Options
	Coach   judge.Options
	Auto    []*plan.Plan // the maneuver is found among these; Coach.Plan is the one shown first
	Output  Output       // nil: nobody listens
	// Aircraft are the cards that one is proposed from where none was chosen.
	Aircraft []*aircraft.Aircraft
	// Demonstration says that the built-in aircraft flies, to show how it is done.
	Demonstration bool
}

// frameSpacing is the least stream time between two frames, s: 30 a second suit the eye. It is a little less than a
// thirtieth, so that rounded time stamps in a stream of 30 a second do not cost every third frame.
const frameSpacing = 1.0/30 - 1e-3

// idle is how often the station message is renewed, s.
const idle = 1.0

// A Session follows one station. It is not safe for concurrent use.
type Session struct {
	opt     Options
	station *pipeline.Pipeline
	follow  follower   // by one card, or by all of them
	plan    *plan.Plan // what is shown now
	seq     uint64
	framed  float64 // stream time of the last frame
	last    float64 // stream time of the last sample, NaN before the first
	status  status
	flown   flown
	said    *coach.Callout    // the last with words; nil before
	measure *measure.Measurer // while no aircraft card is chosen; nil else
	guide   *measure.Guide    // while an aircraft is measured with its pilot; nil else
	task    task
}

// known is what the owner of the session knows about it.
type known struct {
	id, ended, student, recording string

	words   phrase.Phrase
	trouble phrase.Phrase
	private bool
	share   *message.Share
}

// flown is what the report of the session holds.
type flown struct {
	time          float64                     // s of stream time without the jumps
	series        []pack.Record[coach.Series] // those that are over
	open          coach.Series                // the legs of the series under way
	legs          int
	entered       bool // a maneuver was entered
	sent, derived stream.Set
	holes         []coach.Hole // where this machine lost datagrams
}

// A follower follows the station by one card, or by all of them to find the maneuver.
type follower interface {
	Plan() *plan.Plan // what is shown now
	Step(s *stream.Sample) bool
	Break(reason phrase.Phrase)
	Take() []coach.Event
	Frame() *coach.Frame
	SetLine(c coach.LineChoice) error
	SetAbout(c coach.AboutChoice) error
	Prompt(how string)
	Tell(by, words string)
	Stop(by string)
	Turn() (turn float64, ok bool)
	Sight() ground.Sight
	Succeed(sight ground.Sight)
}

// New begins to follow a station.
func New(o Options) *Session {
	if o.Coach.Explain == nil {
		o.Coach.Explain = cause.Explainer{}
	}
	s := &Session{opt: o, station: pipeline.New(o.Station), last: math.NaN(), framed: math.Inf(-1)}
	s.status.outdate()
	s.begin()
	s.publish(message.NewChart(s.plan))
	return s
}

// begin makes the follower that the options ask for.
func (s *Session) begin() {
	o := &s.opt
	if len(o.Auto) > 0 {
		s.follow = follow.NewAuto(o.Coach, o.Auto, max(0, slices.Index(o.Auto, o.Coach.Plan)))
	} else {
		s.follow = follow.New(o.Coach)
	}
	s.plan = s.follow.Plan()
	s.measureUnknown()
}

// measureUnknown measures an aircraft whose card was not chosen, and leaves one that was.
func (s *Session) measureUnknown() {
	if s.plan.Known || len(s.opt.Aircraft) == 0 {
		s.measure = nil
	} else if s.measure == nil {
		s.measure = measure.New()
	}
}

// Feed takes one datagram, received at a time in seconds of any epoch.
func (s *Session) Feed(b []byte, received float64) pipeline.Result {
	sample, r := s.station.Feed(b, received)
	switch r.Outcome {
	case pipeline.Jumped:
		s.follow.Break(r.Reason)
		if s.measure != nil {
			s.measure.Break()
		}
		if s.guide != nil {
			s.guide.Break()
		}
		s.last = math.NaN()
		s.step(sample)
	case pipeline.Accepted:
		s.step(sample)
	}
	if received-s.status.renewed >= idle || received < s.status.renewed {
		s.renew(received)
	}
	return r
}

// step coaches one sample and publishes the result.
func (s *Session) step(sample *stream.Sample) {
	now := sample.Value(stream.Time)
	if !math.IsNaN(s.last) {
		s.flown.time += now - s.last
	} else {
		s.framed = math.Inf(-1)
	}
	s.last = now
	s.flown.sent |= sample.Has &^ sample.Derived
	s.flown.derived |= sample.Derived
	if s.measure != nil {
		s.measure.Step(sample)
	}
	if s.guide != nil {
		s.guide.Step(sample)
	}
	s.follow.Step(sample)
	s.drain()
	if s.opt.Output != nil && now-s.framed >= frameSpacing { // a page that opens may wait for as long
		s.framed = now
		if s.opt.Output.Watched(s.opt.Name) {
			s.opt.Output.Frame(s.opt.Name, s.follow.Frame())
		}
	}
}

// drain publishes the coach's events and keeps the series.
func (s *Session) drain() {
	if p := s.follow.Plan(); p != s.plan {
		s.plan = p
		s.publish(message.NewChart(s.plan))
		s.status.outdate()
	}
	for _, e := range s.follow.Take() {
		switch e := e.(type) {
		case *coach.Phase:
			s.flown.entered = s.flown.entered || e.Direction != ""
		case *coach.Leg:
			s.propose(e)
			score.Tell(e)
			s.SetTrouble(phrase.Phrase{})
			s.flown.addLeg(s.plan, e)
			s.tried(e)
		case *coach.Series:
			for i := range e.Legs { // they are not those of the events
				s.propose(&e.Legs[i])
				score.Tell(&e.Legs[i])
			}
			e.Headline = score.SeriesHeadline(e)
			s.checked(e)
			s.publish(message.Series{Series: s.flown.addSeries(e)}) // its listeners have the traces of the legs
			continue
		case *coach.Callout:
			if e.Words != "" {
				s.said = e
			}
		}
		s.publish(message.Of(e))
	}
}

func (s *Session) publish(body message.Body) {
	if s.opt.Output == nil {
		return
	}
	s.seq++
	s.opt.Output.Event(message.Message{Station: s.opt.Name, Seq: s.seq, Body: body})
}

// Probe returns everything known about the stream at a moment in seconds of the epoch of Feed.
func (s *Session) Probe(now float64) probe.Probe {
	return probe.New(s.Info(now), s.station, s.plan.Card, now)
}

// TellAgain publishes the chart and the station message again, for listeners that missed them.
func (s *Session) TellAgain() {
	s.status.sent = message.Station{}
	s.status.outdate()
	s.publish(message.NewChart(s.plan))
}

// SetAddress sets the address from which the stream comes now.
func (s *Session) SetAddress(address string) {
	s.opt.Address = address
	s.status.outdate()
}

// Choose changes what is flown from here on: the plan; or one of auto, with the plan shown first.
func (s *Session) Choose(p *plan.Plan, auto []*plan.Plan) {
	if one, ok := s.follow.(*follow.Single); ok && len(auto) == 0 {
		one.Choose(p)
		s.plan = p
		s.leaveTask()
		s.measureUnknown()
	} else {
		s.follow.Break(phrase.ChoiceChanged.Of())
		s.drain()
		sight := s.follow.Sight()
		s.opt.Coach.Plan, s.opt.Auto = p, auto
		s.task = task{}
		s.begin()
		s.follow.Succeed(sight)
	}
	s.drain()
	s.publish(message.NewChart(s.plan))
	s.status.outdate()
}

// SetLine sets or clears the ground line as of the last sample. It returns an error for a heading, side or distance out
// of range, and when there is no heading to take over yet.
func (s *Session) SetLine(c coach.LineChoice) error {
	return s.follow.SetLine(c)
}

// SetAbout chooses a point on the ground to fly about as of the last sample, or clears what was chosen. It returns an
// error for a choice out of range, and where there is no position and true heading to take it from.
func (s *Session) SetAbout(c coach.AboutChoice) error {
	if err := s.follow.SetAbout(c); err != nil {
		return err
	}
	s.drain()
	return nil
}

// End closes what is under way: the stream has ended.
func (s *Session) End(reason phrase.Phrase) {
	s.follow.Break(reason)
	s.drain()
	s.Leave()
}

// Leave publishes that the station is gone, and does nothing else. It is for a session that a fault ended, of which End
// cannot be trusted.
func (s *Session) Leave() {
	n := s.status.sent
	n.Link, n.Trouble = message.LinkGone, s.status.known.trouble
	if s.status.sent.Name != "" {
		s.publish(&n)
	}
}

// Publish sends a message of the session's owner, in order with the session's own.
func (s *Session) Publish(body message.Body) { s.publish(body) }

// Coaching returns the plan that is shown now.
func (s *Session) Coaching() *plan.Plan { return s.plan }

// Legs returns the number of legs flown so far, finished or not.
func (s *Session) Legs() int { return s.flown.legs }

// Entered reports whether a maneuver was entered, whether or not it was finished.
func (s *Session) Entered() bool { return s.flown.entered }

// Proven reports whether any sample was ever received.
func (s *Session) Proven() bool { return !math.IsNaN(s.last) || s.flown.time > 0 }

// Station returns the pipeline of the datagrams, for its counts.
func (s *Session) Station() *pipeline.Pipeline { return s.station }
