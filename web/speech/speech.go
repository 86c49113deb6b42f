// Package speech speaks callouts on the server, with the user's own speech program: for a station
// without a browser, or with the loudspeaker at the server.
package speech

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
)

// Config selects what is spoken, and how.
type Config struct {
	Command []string // the program and its arguments; {words} and {rate} (words a minute) are filled in
	Rate    float64  // words a minute
	Level   Level    // how much, besides safety
	Station string   // whose callouts; "" is the first station that has any, until it leaves
	Log     zerolog.Logger
}

// A Speaker passes on what sessions produce, and speaks the callouts of one station: one program at a
// time, killed when something more important comes. It never delays a session.
type Speaker struct {
	session.Output // what comes after it

	cfg     Config
	program program
	counts  *prometheus.CounterVec
	calls   chan *coach.Callout
	poke    chan struct{} // a frame came

	mu      sync.Mutex
	station string  // whose callouts are spoken; "" before there were any
	latest  *glance // of that station

	// Of the goroutine of Run alone.
	length  *lengths
	now     *utterance // being spoken
	cues    []*coach.Callout
	waiting []waiting // what is to be said when what is spoken has ended
	failed  string    // what was complained about last
}

// An utterance is words being spoken.
type utterance struct {
	running
	callout *coach.Callout
	began   time.Time
}

// A waiting callout came while another one was spoken.
type waiting struct {
	*coach.Callout
	came time.Time
}

// expired reports whether it has waited too long: what a person says is of its moment.
func (w waiting) expired() bool {
	return w.Kind == coach.Said && time.Since(w.came) > seconds(patience)
}

// backlog is how many callouts may wait for the speaker; a session never has that many at once.
const backlog = 32

// most is how many cues are kept waiting for their time.
const most = 8

// greeting is said first: it shows that the program works, how fast it speaks, and the caution that matters most.
const greeting = "Halfturn speaks. Simulator only."

// New makes a speaker in front of an output. It fails when the program is not there.
func New(cfg Config, next session.Output, reg prometheus.Registerer) (*Speaker, error) {
	c, err := newCommand(cfg.Command, cfg.Rate)
	if err != nil {
		return nil, fmt.Errorf("callouts cannot be spoken: %w", err)
	}
	return newSpeaker(cfg, c, next, reg)
}

func newSpeaker(cfg Config, p program, next session.Output, reg prometheus.Registerer) (*Speaker, error) {
	s := &Speaker{
		Output:  next,
		cfg:     cfg,
		program: p,
		calls:   make(chan *coach.Callout, backlog),
		poke:    make(chan struct{}, 1),
		station: cfg.Station,
		length:  newLengths(cfg.Rate),
		counts: prometheus.NewCounterVec(
			prometheus.CounterOpts{
				Name: "halfturn_speech_total",
				Help: "Callouts by what the speech program made of them.",
			},
			[]string{"outcome"},
		),
	}
	if err := reg.Register(s.counts); err != nil {
		return nil, fmt.Errorf("cannot register the speaker's metrics: %w", err)
	}
	return s, nil
}

// Event passes a message on, and keeps a callout to speak.
func (s *Speaker) Event(m message.Message) {
	s.Output.Event(m)
	switch b := m.Body.(type) {
	case message.Callout:
		if !s.mine(m.Station, true) {
			return
		}
		select {
		case s.calls <- b.Callout:
		default:
			s.counts.WithLabelValues("overrun").Inc()
		}
	case *message.Station:
		s.stands(m.Station, b.Link)
	}
}

// stands takes the link state of a station. Cues wait while the simulator is paused; a station that left makes room for
// another.
func (s *Speaker) stands(station, link string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.station != station || link == "live" {
		return
	}
	s.latest = nil // it is outdated
	if link == message.LinkGone && s.cfg.Station == "" {
		s.station = ""
	}
}

// Frame passes the state of now on, and keeps what times the cues.
func (s *Speaker) Frame(station string, f *coach.Frame) {
	if s.Output.Watched(station) {
		s.Output.Frame(station, f)
	}
	if !s.mine(station, false) {
		return
	}
	g := look(f, time.Now())
	s.mu.Lock()
	s.latest = g
	s.mu.Unlock()
	select {
	case s.poke <- struct{}{}:
	default:
	}
}

// Watched reports whether frames of the station are needed.
func (s *Speaker) Watched(station string) bool {
	return s.mine(station, false) || s.Output.Watched(station)
}

// Station returns whose callouts are spoken; "" before there were any.
func (s *Speaker) Station() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.station
}

// mine reports whether the callouts of a station are spoken; the first station that has any is chosen.
func (s *Speaker) mine(station string, calls bool) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if calls && s.station == "" {
		s.station = station
	}
	return s.station == station
}

// Run speaks until the context ends, then stops the program and waits for its end.
func (s *Speaker) Run(ctx context.Context) {
	defer s.stop()
	beat := time.NewTimer(0)
	defer beat.Stop()
	s.say(&coach.Callout{Kind: coach.Result, ID: "greeting", Words: greeting})
	for {
		var ended <-chan error
		if s.now != nil {
			ended = s.now.done()
		}
		select {
		case <-ctx.Done():
			return
		case c := <-s.calls:
			s.call(c)
		case err := <-ended:
			s.ended(err)
		case <-s.poke:
		case <-beat.C:
		}
		s.tick()
		if wait := s.wake(); wait > 0 {
			beat.Reset(wait)
		}
	}
}

// wake returns when to look again if nothing comes: soon while a cue waits, and when the
// program has had its time. 0 is never.
func (s *Speaker) wake() time.Duration {
	if len(s.cues) > 0 {
		return seconds(step)
	}
	if s.now != nil {
		return max(time.Millisecond, time.Until(s.deadline()))
	}
	return 0
}

// deadline is when a program that still runs counts as hung.
func (s *Speaker) deadline() time.Time {
	return s.now.began.Add(seconds(3 + 2*s.length.of(wordsOf(s.now.callout))))
}

func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

// speaking is the kind of callout being spoken, "" for none.
func (s *Speaker) speaking() string {
	if s.now == nil {
		return ""
	}
	return s.now.callout.Kind
}

// glance returns the latest state of the station, nil before any.
func (s *Speaker) glance() *glance {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.latest
}

// call takes a callout.
func (s *Speaker) call(c *coach.Callout) {
	if c.Kind == coach.Cue && c.Due != nil {
		s.cues = append(s.cues, c)
		if len(s.cues) > most {
			s.drop("late", 0)
		}
		return
	}
	age := 0.0
	if g := s.glance(); g != nil {
		age = g.time + time.Since(g.seen).Seconds() - c.Time
	}
	if c.Kind == coach.Clear && ofCue(c) {
		s.takeBack(c.ID)
	}
	o := decide(c, s.cfg.Level, age, s.speaking())
	if c.Kind == coach.Safety {
		for len(s.cues) > 0 {
			s.drop("gave way", 0)
		}
	}
	switch {
	case o.cancel:
		s.stop()
		s.waiting = slices.DeleteFunc(s.waiting, func(w waiting) bool {
			return c.Kind != coach.Safety || w.Kind != coach.Said // which is said after safety
		})
		if o.say {
			s.say(c)
		}
	case o.wait:
		if s.waiting = append(s.waiting, waiting{c, time.Now()}); len(s.waiting) > most {
			s.waiting = s.waiting[1:]
		}
	case o.say:
		s.say(c)
	case c.Words != "":
		s.counts.WithLabelValues("not wanted").Inc()
	}
}

// takeBack drops a cue that is not to be said any more.
func (s *Speaker) takeBack(id string) {
	for i := range s.cues {
		if s.cues[i].ID == id {
			s.drop("taken back", i)
			return
		}
	}
}

// drop drops a waiting cue.
func (s *Speaker) drop(why string, i int) {
	s.counts.WithLabelValues(why).Inc()
	s.cues = slices.Delete(s.cues, i, i+1)
}

// tick begins the cues whose time has come, drops those left behind, and ends a program that hangs.
func (s *Speaker) tick() {
	now := time.Now()
	if s.now != nil && now.After(s.deadline()) {
		s.complain("it was still running long after it should have ended, and was stopped")
		s.stop()
	}
	g := s.glance()
	for i := 0; i < len(s.cues); {
		c := s.cues[i]
		switch g.of(c, now, s.length.of(c.Words)) {
		case keep:
			i++
		case tooOld:
			s.drop("late", i)
		case over:
			s.drop("leg over", i)
		case begin:
			if kind := s.speaking(); kind != "" && rank[kind] < rank[coach.Result] {
				i++ // it ends soon, or the cue gets too old
				continue
			}
			s.cues = slices.Delete(s.cues, i, i+1)
			s.stop()
			s.waiting = nil
			s.say(c)
		}
	}
}

// say starts the program; nothing is being spoken.
func (s *Speaker) say(c *coach.Callout) {
	r, err := s.program.start(wordsOf(c))
	if err != nil {
		s.complain(err.Error())
		return
	}
	s.counts.WithLabelValues("spoken").Inc()
	s.now = &utterance{running: r, callout: c, began: time.Now()}
}

// ended handles a program that ended by itself.
func (s *Speaker) ended(err error) {
	u := s.now
	s.now = nil
	if err != nil {
		s.complain(err.Error())
	} else if took := time.Since(u.began).Seconds(); took > 0.1 {
		s.length.learn(wordsOf(u.callout), took)
		s.failed = ""
	}
	for len(s.waiting) > 0 && s.now == nil {
		next := s.waiting[0]
		s.waiting = s.waiting[1:]
		if next.expired() {
			s.counts.WithLabelValues("late").Inc()
			continue
		}
		s.say(next.Callout)
		return
	}
}

// complain logs what is wrong with the program; a repeated message is logged once.
func (s *Speaker) complain(what string) {
	s.counts.WithLabelValues("failed").Inc()
	if what != s.failed {
		s.failed = what
		s.cfg.Log.Warn().
			Str("reason", what).
			Msg("the speech program failed; coaching goes on without it: see [speech] command in the configuration")
	}
}

// stop kills what is being spoken and waits for its end.
func (s *Speaker) stop() {
	if s.now == nil {
		return
	}
	s.now.kill()
	<-s.now.done()
	s.now = nil
}
