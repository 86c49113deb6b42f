package playback_test

import (
	"bytes"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/course"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A school is the cards of the program, and the plans made from them.
type school struct {
	t      *testing.T
	cards  *maneuver.Library
	course *course.Course
	plans  map[maneuver.Choice]*plan.Plan
}

func newSchool(t *testing.T) *school {
	t.Helper()
	cards, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	courses, err := course.LoadLibrary(cards, configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	first, err := courses.Named("first")
	if err != nil {
		t.Fatal(err)
	}
	return &school{t: t, cards: cards, course: first, plans: map[maneuver.Choice]*plan.Plan{}}
}

func (s *school) plan(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	if s.plans[c] == nil {
		card, err := s.cards.Judged(c.Maneuver, c.Standard)
		if err != nil {
			return nil, nil, err
		}
		plane, err := s.cards.AircraftNamed(c.Aircraft)
		if err != nil {
			return nil, nil, err
		}
		s.plans[c] = plan.New(card, plane)
	}
	return s.plans[c], nil, nil
}

// A log keeps what a session publishes, as it is sent.
type log struct {
	t    *testing.T
	sent []string
	said []*coach.Callout
	legs []*coach.Leg
	how  []string // how much was said when each leg ended
	now  string
}

func (l *log) Event(m message.Message) {
	data, err := m.MarshalJSON()
	if err != nil {
		l.t.Fatal(err)
	}
	l.sent = append(l.sent, string(data))
	switch b := m.Body.(type) {
	case message.Callout:
		l.said = append(l.said, b.Callout)
	case message.Leg:
		l.legs = append(l.legs, b.Leg)
		l.how = append(l.how, l.now)
	case *message.Station:
		l.now = b.Prompts
	}
}
func (*log) Frame(string, *coach.Frame) {}
func (*log) Watched(string) bool        { return false }

// A seat is a station that is flown live, as far as its commands need one.
type seat struct {
	*school
	session *session.Session
}

func (s *seat) Session() *session.Session { return s.session }
func (s *seat) Present() *session.Session { return s.session }
func (s *seat) Choose(c maneuver.Choice) error {
	p, auto, err := s.plan(c)
	if err == nil {
		s.session.Choose(p, auto)
	}
	return err
}
func (s *seat) Student(_ who.Who, name string) error {
	s.session.SetStudent(name)
	return nil
}
func (*seat) Mark(command.Command, string) error { return nil }
func (*seat) Start(command.Command) error        { return nil }
func (*seat) End(command.Command) error          { return nil }

// An exercise is what was flown in one session, as it was recorded.
type exercise struct {
	log
	datagrams [][]byte
	comments  []string // before the first
	report    []coach.Series
	task      course.Task // as the session left it
}

// pace is how many samples a second the pilot's simulator sends.
const pace = 10

// begin makes the session in which an exercise is flown or played again.
func (s *school) begin(l *log) *session.Session {
	p, _, err := s.plan(maneuver.Choice{Maneuver: "wing-over", Aircraft: "radial-trainer"})
	if err != nil {
		s.t.Fatal(err)
	}
	return session.New(session.Options{Name: "Seat 3", Coach: judge.Options{Plan: p}, Output: l})
}

// fly has flights flown after a command, one after the other.
func (s *school) fly(a command.Action, flights ...trainer.Flight) *exercise {
	s.t.Helper()
	x := &exercise{log: log{t: s.t}}
	live := &seat{school: s, session: s.begin(&x.log)}
	c := command.New("01J0000000000000000000000A", monday, "Seat 3", who.Owner(), a)
	if err := c.Do(live); err != nil {
		s.t.Fatal(err)
	}
	x.comments = []string{playback.CommandComment(c)}
	pilot, err := trainer.NewSequence(flights...)
	if err != nil {
		s.t.Fatal(err)
	}
	e, err := encode.New("json")
	if err != nil {
		s.t.Fatal(err)
	}
	var sample stream.Sample
	for more := true; more; {
		more = pilot.Step(1.0/pace, &sample)
		x.send(live.session, e.Append(nil, &sample))
	}
	live.session.End(phrase.SessionEnded.Of())
	x.task, _ = live.session.Task()
	x.report = live.session.Report().Series
	return x
}

// send feeds a datagram to the session, and records it.
func (x *exercise) send(s *session.Session, b []byte) {
	s.Feed(b, float64(len(x.datagrams))/pace)
	x.datagrams = append(x.datagrams, bytes.Clone(b))
}

// again plays an exercise as it was recorded.
func (s *school) again(x *exercise) *log {
	s.t.Helper()
	l := &log{t: s.t}
	p := playback.New(s.begin(l), s.plan)
	for i, b := range x.datagrams {
		var comments []string
		if i == 0 {
			comments = x.comments
		}
		if _, err := p.Feed(b, float64(i)/pace, comments); err != nil {
			s.t.Fatal(err)
		}
	}
	if err := p.End(nil); err != nil {
		s.t.Fatal(err)
	}
	return l
}

// within is how many callouts of some kinds there were in a leg.
func (x *exercise) within(l *coach.Leg, kinds ...string) (n int) {
	for _, k := range x.said {
		if k.Time >= l.Start && k.Time <= l.End && slices.Contains(kinds, k.Kind) {
			n++
		}
	}
	return n
}

// count is how many callouts of some kinds there were.
func (x *exercise) count(kinds ...string) (n int) {
	for _, k := range x.said {
		if slices.Contains(kinds, k.Kind) {
			n++
		}
	}
	return n
}
