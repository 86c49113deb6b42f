package school

import (
	"context"
	"encoding/json"
	"sync"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/web/share/link"
)

// A station is one that flies at home, as it is shown here.
type station struct {
	server *Server
	name   string

	mu       sync.Mutex
	served   *served // nil while there is no link
	lost     time.Time
	play     *playback.Play // nil before the first opening
	options  session.Options
	session  string          // that is flown, by its id at home; "" at rest
	again    bool            // the opening was of the session that goes on
	seen     map[string]bool // comments of the session that were followed
	comments []string        // on the next datagram
	received time.Time       // when the last datagram came, by the clock of the home
	at       time.Time       // the same by the clock here
	state    link.State
	clock    time.Duration // by how much the clock here is ahead
	failing  error         // why its recording cannot be written here
	left     phrase.Phrase // that its session was ended without the home; nothing once that is back
}

// mostSeen bounds the comments of a session that are remembered; there are as many as commands.
const mostSeen = 4096

// live coaches what a link brings.
func (s *station) live(records []link.Record, now time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range records {
		r := &records[i]
		switch r.Type {
		case link.RecordOpening:
			s.open(string(r.Bytes), now)
		case link.RecordHead:
			if !s.again {
				s.feed(r, now)
			}
		case link.RecordComment:
			if text := string(r.Bytes); !s.seen[text] && len(s.seen) < mostSeen {
				s.seen[text] = true
				s.comments = append(s.comments, text)
			}
		case link.RecordDatagram:
			s.feed(r, now)
		case link.RecordEnd:
			s.rest(now)
		}
	}
}

// open begins a session, or goes on with it. mu is held.
func (s *station) open(text string, now time.Time) {
	o, ours, err := playback.ReadOpening(text)
	if err != nil || !ours {
		s.server.opt.Log.Warn().Err(err).Str("station", s.name).Msg("the session cannot be shown; it is recorded")
		return
	}
	if s.again = s.play != nil && s.session == o.Session; s.again {
		return
	}
	options, err := o.Options(s.server.opt.Session(), s.server.opt.Plans)
	if err != nil { // cards that are not known here
		s.server.opt.Log.Warn().Err(err).Str("station", s.name).Msg("the session cannot be shown; it is recorded")
		s.close()
		return
	}
	s.close()
	options.Name, options.Address, options.Output = s.name, s.served.remote, s.server.opt.Output
	s.options, s.session = options, o.Session
	s.begin(now)
	id := o.Session
	if known, ok := s.server.inbox.book.Received(s.name, id); ok {
		id = known.ID
	}
	s.play.Session.SetID(id)
	s.play.Session.SetStudent(o.Student)
	s.play.Student = o.Student
	s.tellRecording()
	s.play.Session.Publish(&message.Session{ID: id, State: message.SessionBegan})
}

// begin makes a coach by the options. mu is held.
func (s *station) begin(now time.Time) {
	s.play = playback.New(session.New(s.options), s.server.opt.Plans)
	s.play.Session.SetShare(s.share(now))
	s.seen, s.comments = map[string]bool{}, nil
}

// feed coaches a datagram. mu is held.
func (s *station) feed(r *link.Record, now time.Time) {
	if s.play == nil || s.session == "" {
		return
	}
	s.received, s.at = time.Unix(0, r.Received), now
	comments := s.comments
	s.comments = nil
	if _, err := s.play.Feed(r.Bytes, stream.Seconds(s.received), comments); err != nil {
		s.server.opt.Log.Debug().Err(err).Str("station", s.name).Msg("a command of the home is not shown")
	}
}

// rest ends the session; the station stays. mu is held.
func (s *station) rest(now time.Time) {
	if s.play == nil || s.session == "" {
		return
	}
	ended, student := s.session, s.play.Student
	if known, ok := s.server.inbox.book.Received(s.name, ended); ok {
		ended = known.ID
	}
	coach := s.play.Session
	coach.End(phrase.SessionEnded.Of())
	coach.Publish(&message.Session{ID: ended, State: message.SessionEnded, Legs: coach.Legs()})
	plan := coach.Coaching()
	if len(s.options.Auto) == 0 {
		s.options.Coach.Plan = plan
	}
	s.session = ""
	s.begin(now)
	s.play.Session.SetEnded(ended)
	s.play.Session.SetStudent(student)
	s.play.Session.SetRecording(message.Resting, phrase.Phrase{})
}

// close takes the station from the pages. mu is held.
func (s *station) close() {
	if s.play == nil {
		return
	}
	s.play.Session.End(phrase.SessionEnded.Of())
	s.play, s.session = nil, ""
}

// home is the time at home. mu is held.
func (s *station) home(now time.Time) float64 {
	return stream.Seconds(s.received.Add(now.Sub(s.at)))
}

// tick lets the coach notice silence, and shows the link. It reports whether the station is gone.
func (s *station) tick(now time.Time) (gone bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.served == nil && now.Sub(s.lost) > s.server.opt.Idle {
		s.close()
		return true
	}
	if s.play == nil {
		return false
	}
	s.play.Session.SetShare(s.share(now))
	if !s.received.IsZero() {
		s.play.Session.Tick(s.home(now))
	}
	return false
}

// share is how the link stands. mu is held.
func (s *station) share(now time.Time) *message.Share {
	m := &message.Share{Up: s.served != nil, Behind: s.state.Behind, Clock: s.clock.Round(time.Second).Seconds()}
	if !m.Up {
		m.Why = s.left
		m.Behind += now.Sub(s.lost).Round(time.Second).Seconds()
	}
	m.Behind = float64(int(m.Behind))
	return m
}

// tell takes the state that a home tells.
func (s *station) tell(state *link.State, now time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.state, s.clock = *state, now.Sub(state.At)
	if s.play != nil {
		s.play.Session.SetPrivate(state.Private)
	}
}

// A question is a command that was sent home.
type question struct{ answer chan *link.Result }

// do has a command done at home. The error is worded for whoever asks.
func (s *station) do(ctx context.Context, c command.Command) error {
	s.mu.Lock()
	l := s.served
	s.mu.Unlock()
	if l == nil {
		return phrase.ShareNoLink.Error(phrase.Name("station", s.name))
	}
	text, err := json.Marshal(c)
	if err != nil {
		return err
	}
	q := &question{make(chan *link.Result, 1)}
	if !l.ask(c.ID, q) {
		return phrase.StationMute.Error(phrase.Name("station", s.name))
	}
	defer l.forget(c.ID)
	ctx, cancel := context.WithTimeout(ctx, answerWait)
	defer cancel()
	l.put(&link.Command{ID: c.ID, Command: text})
	select {
	case r := <-q.answer:
		if r.Refused != nil {
			return &refused{*r.Refused}
		}
		return nil
	case <-l.ended:
		return phrase.ShareNoLink.Error(phrase.Name("station", s.name))
	case <-ctx.Done():
		return phrase.StationMute.Error(phrase.Name("station", s.name))
	}
}
