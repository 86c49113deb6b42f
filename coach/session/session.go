// Package session turns one sender's datagrams into coached flight: it decodes, keeps the time base, coaches, keeps
// what was flown, and hands messages to its output. It has no clock, no socket and no file: live stations and
// recordings run through the same code.
package session

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/debrief"
	"halfturn/coach/follow"
	"halfturn/coach/ground"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// An Output takes what a station's session produces. Calls for one station come from one goroutine, in order. What it
// is handed is valid only during the call, except the bodies of messages, which are never changed afterwards.
type Output interface {
	// Event takes a message that nobody may miss.
	Event(m message.Message)
	// Frame takes the state of now; only the latest counts.
	Frame(station string, f *coach.Frame)
	// Watched tells whether frames of the station are needed at all.
	Watched(station string) bool
}

// Options say how a station is followed.
type Options struct {
	Name    string // of the station
	Address string // of the sender
	Station pipeline.Options
	Coach   judge.Options
	Auto    []*plan.Plan // which of these it is, is found from what is flown; Coach.Plan is the one shown first
	Output  Output       // nil: nobody listens
}

// frameSpacing is the least stream time between two frames, s: 30 a second suit the eye. A
// little less than a thirtieth, or the rounded stamps of a stream of 30 would lose every third.
const frameSpacing = 1.0/30 - 1e-3

// idle is how long what a station says of itself may stand before it is looked at again, s.
const idle = 1.0

// A Session follows one station. It is not safe for concurrent use.
type Session struct {
	opt     Options
	station *pipeline.Pipeline
	follow  follower   // by one card, or by all of them
	plan    *plan.Plan // what is shown now
	auto    bool       // the maneuver is found from the flight
	seq     uint64
	told    message.Station // the station message last sent
	looked  float64         // when that was last looked at
	framed  float64         // stream time of the last frame
	last    float64         // stream time of the last sample, NaN before the first
	flown   float64         // s of stream time without the jumps
	series  []coach.Series
	open    coach.Series // the legs of the series under way
	legs    int
	entered bool // a maneuver was
	known   known
	chans   [2]stream.Set // sent and derived so far
}

// known is what the session's owner says of it.
type known struct{ id, ended, student, recording, words string }

// A follower follows the station by one card, or by several that find out which of them counts.
type follower interface {
	Plan() *plan.Plan // what is shown now
	Step(s *stream.Sample) bool
	Break(reason phrase.Phrase)
	Take() []coach.Event
	Frame() *coach.Frame
	SetLine(c coach.LineChoice) error
	Sight() ground.Sight
	Succeed(sight ground.Sight)
}

// New begins to follow a station.
func New(o Options) *Session {
	if o.Coach.Explain == nil {
		o.Coach.Explain = cause.Explainer{}
	}
	s := &Session{opt: o, station: pipeline.New(o.Station), last: math.NaN(), framed: math.Inf(-1), looked: math.Inf(-1)}
	s.begin()
	s.publish(message.NewChart(s.plan))
	return s
}

// begin makes what follows the station, as the options say.
func (s *Session) begin() {
	o := &s.opt
	if s.auto = len(o.Auto) > 0; s.auto {
		s.follow = follow.NewAuto(o.Coach, o.Auto, max(0, slices.Index(o.Auto, o.Coach.Plan)))
	} else {
		s.follow = follow.New(o.Coach)
	}
	s.plan = s.follow.Plan()
}

// Feed takes one datagram, received at a time in seconds of any epoch.
func (s *Session) Feed(b []byte, received float64) pipeline.Result {
	sample, r := s.station.Feed(b, received)
	switch r.Outcome {
	case pipeline.Jumped:
		s.follow.Break(r.Reason)
		s.last = math.NaN()
		s.step(sample)
	case pipeline.Accepted:
		s.step(sample)
	}
	if received-s.looked >= idle || received < s.looked {
		s.look(received)
	}
	return r
}

// step coaches one sample and publishes what came of it.
func (s *Session) step(sample *stream.Sample) {
	now := sample.Value(stream.Time)
	if !math.IsNaN(s.last) {
		s.flown += now - s.last
	} else {
		s.framed = math.Inf(-1)
	}
	s.last = now
	s.chans[0] |= sample.Has &^ sample.Derived
	s.chans[1] |= sample.Derived
	s.follow.Step(sample)
	s.drain()
	if s.opt.Output != nil && now-s.framed >= frameSpacing && s.opt.Output.Watched(s.opt.Name) {
		s.framed = now
		s.opt.Output.Frame(s.opt.Name, s.follow.Frame())
	}
}

// drain publishes the coach's events and keeps the series.
func (s *Session) drain() {
	if p := s.follow.Plan(); p != s.plan {
		s.plan = p
		s.publish(message.NewChart(s.plan))
		s.looked = math.Inf(-1)
	}
	for _, e := range s.follow.Take() {
		switch e := e.(type) {
		case *coach.Phase:
			s.entered = s.entered || e.Direction != ""
		case *coach.Leg:
			s.legs++
			s.under(e)
		case *coach.Series:
			s.series = append(s.series, kept(e))
			s.closed(e)
		}
		s.publish(message.Of(e))
	}
}

// kept is a series without the pictures of its legs: those are drawn again from the recording.
func kept(e *coach.Series) coach.Series {
	k := *e
	k.Legs = slices.Clone(e.Legs)
	for i := range k.Legs {
		k.Legs[i].Trace = nil
	}
	return k
}

func (s *Session) publish(body message.Body) {
	if s.opt.Output == nil {
		return
	}
	s.seq++
	s.opt.Output.Event(message.Message{Station: s.opt.Name, Seq: s.seq, Body: body})
}

// Tick tells the session what time it is, for what is noticed by nothing coming.
func (s *Session) Tick(now float64) {
	if now-s.looked >= idle/4 {
		s.look(now)
	}
}

// look publishes what the station says of itself when that changed.
func (s *Session) look(now float64) {
	s.looked = now
	if s.opt.Output == nil {
		return
	}
	n := s.Info(now)
	if same(&n, &s.told) {
		return
	}
	s.told = n
	s.publish(&n)
}

// same tells whether two station messages say the same; the rate may wander a little.
func same(a, b *message.Station) bool {
	rate := math.Abs(a.Rate-b.Rate) < 0.1*math.Max(a.Rate, 5)
	stream := a.Address == b.Address && a.Link == b.Link && a.Format == b.Format && a.Advice.Equal(b.Advice)
	channels := slices.Equal(a.Channels, b.Channels) && slices.Equal(a.Derived, b.Derived) &&
		slices.Equal(a.Missing, b.Missing)
	choice := a.Maneuver == b.Maneuver && a.Auto == b.Auto && a.Aircraft == b.Aircraft
	session := a.Session == b.Session && a.Ended == b.Ended && a.Student == b.Student
	recording := a.Recording == b.Recording && a.RecordingWords == b.RecordingWords
	return rate && stream && channels && choice && session && recording
}

// Info returns what the station says of itself at a moment in seconds of the epoch of Feed.
func (s *Session) Info(now float64) message.Station {
	p := s.plan
	sent, derived := s.station.Sent(), s.station.Derived()
	return message.Station{
		Name:           s.opt.Name,
		Address:        s.opt.Address,
		Link:           s.station.Link(now),
		Format:         s.station.Format(),
		Advice:         s.advice(now),
		Rate:           math.Round(s.station.Rate(now)*10) / 10,
		Channels:       sent.Names(),
		Derived:        derived.Names(),
		Missing:        Missing(p.Card, sent|derived),
		Maneuver:       p.Card.Name,
		Auto:           s.auto,
		Aircraft:       p.Aircraft.Name,
		Session:        s.known.id,
		Ended:          s.known.ended,
		Student:        s.known.student,
		Recording:      s.known.recording,
		RecordingWords: s.known.words,
	}
}

// leastRate is below which a stream cannot be graded, samples a second: an airplane turns and
// rolls too far between two of them.
const leastRate = 2.0

// advice is the station's own, or that its stream is too slow to grade.
func (s *Session) advice(now float64) phrase.Phrase {
	if a := s.station.Advice(); !a.IsZero() {
		return a
	}
	rate := s.station.Rate(now)
	if s.station.Link(now) == pipeline.LinkLive && s.station.Stats().Samples > 10 && rate > 0 && rate < leastRate {
		return phrase.TooFewSamples.Of(phrase.Number("rate", rate, 1, ""))
	}
	return phrase.Phrase{}
}

// Missing lists the channels that the card's checks want and the set lacks.
func Missing(card *maneuver.Card, has stream.Set) []string {
	want, _ := wanted(card, has)
	return (want &^ has).Names()
}

// SetID names the session in what the station says of itself.
func (s *Session) SetID(id string) { s.known.id, s.looked = id, math.Inf(-1) }

// TellAgain has all that the session and its station say of themselves said again: nobody heard it.
func (s *Session) TellAgain() {
	s.told, s.looked = message.Station{}, math.Inf(-1)
	s.publish(message.NewChart(s.plan))
}

// SetEnded names the session before, which is over.
func (s *Session) SetEnded(id string) { s.known.ended, s.looked = id, math.Inf(-1) }

// SetStudent says who flies; "" is not known.
func (s *Session) SetStudent(name string) { s.known.student, s.looked = name, math.Inf(-1) }

// SetRecording says how the recording goes: "on", "off" or "failing", and why in words.
func (s *Session) SetRecording(state, words string) {
	if s.known.recording != state || s.known.words != words {
		s.known.recording, s.known.words, s.looked = state, words, math.Inf(-1)
	}
}

// SetAddress says where the stream comes from now.
func (s *Session) SetAddress(address string) { s.opt.Address, s.looked = address, math.Inf(-1) }

// Choose changes what is flown from here on: the plan, or one of those of auto, of which the plan is
// shown first.
func (s *Session) Choose(p *plan.Plan, auto []*plan.Plan) {
	if one, ok := s.follow.(*follow.Single); ok && len(auto) == 0 {
		one.Choose(p)
		s.plan = p
	} else {
		s.follow.Break(phrase.ChoiceChanged.Of())
		s.drain()
		sight := s.follow.Sight()
		s.opt.Coach.Plan, s.opt.Auto = p, auto
		s.begin()
		s.follow.Succeed(sight)
	}
	s.drain()
	s.publish(message.NewChart(s.plan))
	s.looked = math.Inf(-1)
}

// SetLine sets or clears the ground line that is to be flown along, from the last sample on. What
// comes of it depends on the samples and the calls alone. It refuses a heading, side or distance
// that is none.
func (s *Session) SetLine(c coach.LineChoice) error {
	return s.follow.SetLine(c)
}

// End closes what is under way: the stream is over.
func (s *Session) End(reason phrase.Phrase) {
	s.follow.Break(reason)
	s.drain()
	n := s.told
	n.Link = message.LinkGone
	if s.told.Name != "" {
		s.publish(&n)
	}
}

// Publish sends a message of the session's owner in the station's own order.
func (s *Session) Publish(body message.Body) { s.publish(body) }

// Coaching tells what is flown: the card and the aircraft, nil when none is chosen.
func (s *Session) Coaching() *plan.Plan { return s.plan }

// Legs returns how many legs were flown so far, whatever became of them.
func (s *Session) Legs() int { return s.legs }

// Entered tells whether a maneuver was entered, whatever became of it.
func (s *Session) Entered() bool { return s.entered }

// Proven tells whether anything useful ever came.
func (s *Session) Proven() bool { return !math.IsNaN(s.last) || s.flown > 0 }

// Station returns what the datagrams went through, for its counts.
func (s *Session) Station() *pipeline.Pipeline { return s.station }

// Report returns what was flown so far.
func (s *Session) Report() debrief.StationReport {
	counts := s.station.Stats()
	r := debrief.StationReport{Station: s.opt.Name, Format: s.station.Format(), Advice: s.station.Advice(), Samples: counts.Samples,
		Duration: math.Round(s.flown*1000) / 1000, Channels: s.chans[0].Names(), Derived: (s.chans[1] &^ s.chans[0]).Names(),
		Series: append([]coach.Series{}, s.series...)}
	for _, d := range counts.Drops {
		if r.Drops == nil {
			r.Drops = map[string]int{}
		}
		r.Drops[d.Reason] = int(d.Count)
	}
	r.Summary = debrief.Summarize(r.Series)
	return r
}
