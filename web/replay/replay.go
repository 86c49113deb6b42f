package replay

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/hub"
)

const (
	reportEvery = time.Second      // between two words on where it stands
	unwatched   = 60 * time.Second // after which a replay nobody looks at ends
	slice       = 4096             // datagrams fed in one go, before commands are looked at
	// s before the place sought from which frames are made, for the trace of the leg there
	lookBack = 150.0
)

// A replay is one recorded session being played. Everything but ask belongs to the goroutine
// of run.
type replay struct {
	id, name   string
	length     float64
	recordings Library
	hub        Stage
	log        zerolog.Logger
	asked      chan question
	done       chan struct{}

	take   Take
	place  float64 // of the datagram read and not fed yet
	full   bool    // there is one
	fed    float64 // place of the datagram fed last, −1 before the first
	over   bool
	seek   float64 // the place to go to with nobody seeing it, NaN when there is none
	pace   pacer
	screen screen
	seen   time.Time // when somebody last looked
	failed error
}

// A question is a command and where its answer goes; it has room for one.
type question struct {
	web.ReplayControl
	answer chan answer
}

type answer struct {
	state web.ReplayState
	err   error
}

func newReplay(id string, length, from, pace float64, library Library, stage Stage, log zerolog.Logger) *replay {
	r := &replay{id: id, name: Station(id), length: length, recordings: library, hub: stage,
		log: log.With().
			Str("replay", id).
			Logger(),
		asked: make(chan question), done: make(chan struct{}), seek: min(from, length), fed: -1}
	r.pace.pace = pace
	r.screen = screen{replay: r, muted: true, scene: &hub.Scene{}}
	return r
}

// ask has a command carried out.
func (r *replay) ask(ctx context.Context, c web.ReplayControl) (web.ReplayState, error) {
	q := question{c, make(chan answer, 1)}
	select {
	case r.asked <- q:
	case <-r.done:
		return web.ReplayState{}, &overError{r.failed}
	case <-ctx.Done():
		return web.ReplayState{}, ctx.Err()
	}
	select {
	case a := <-q.answer: // once taken, a question is answered at once
		return a.state, a.err
	case <-r.done: // unless a fault ends the replay over it; an answer may be there all the same
	}
	select {
	case a := <-q.answer:
		return a.state, a.err
	default:
		return web.ReplayState{}, &overError{r.failed}
	}
}

// An overError says that a replay is over; why, if something went wrong.
type overError struct{ why error }

func (e *overError) Error() string { return fmt.Sprintf("the replay is over: %v", e.why) }

// run plays until it is stopped, fails, or nobody looks any more, and tells the viewers that it is over. Nothing is
// asked of it once done is closed.
func (r *replay) run(ctx context.Context, faults *contain.Faults) {
	if !faults.Run("replay", r.id, func() { r.play(ctx) }) {
		r.failed = phrase.InternalError.Error()
	}
	faults.Run("replay", r.id, r.leave)
}

// play plays until it is stopped, fails, or nobody looks any more.
func (r *replay) play(ctx context.Context) {
	r.seen = time.Now()
	timer := time.NewTimer(0)
	defer timer.Stop()
	report := time.NewTicker(reportEvery)
	defer report.Stop()
	for {
		wait, err := r.step(time.Now())
		if err != nil {
			r.failed = err
			r.log.Warn().Err(err).Msg("the replay ends")
			return
		}
		timer.Stop()
		if wait >= 0 {
			timer.Reset(wait)
		}
		select {
		case <-ctx.Done():
			return
		case q := <-r.asked:
			if r.carryOut(q, time.Now()) {
				return
			}
		case <-timer.C:
		case now := <-report.C:
			if r.watched(now); now.Sub(r.seen) > unwatched {
				return
			}
			if !r.pace.paused && math.IsNaN(r.seek) {
				r.tell()
			}
		}
	}
}

func (r *replay) watched(now time.Time) {
	if r.hub.Viewers(r.name) > 0 {
		r.seen = now
	}
}

// leave tells the viewers that it is over.
func (r *replay) leave() {
	if r.take != nil {
		_ = r.take.Close() // it was only read
	}
	info := r.screen.info
	info.Link = message.LinkGone
	if r.failed != nil {
		info.Advice = phrase.OfError(r.failed)
	}
	r.hub.Event(message.Message{Station: r.name, Body: r.dressed(info)})
}

// step feeds what is due and returns how long it is until more is, negative when nothing
// will be.
func (r *replay) step(now time.Time) (time.Duration, error) {
	for range slice {
		if err := r.read(); err != nil {
			return 0, err
		}
		if !math.IsNaN(r.seek) {
			if r.full && r.place <= r.seek {
				r.screen.frames = r.place >= r.seek-lookBack
				r.feed()
				continue
			}
			r.arrive(now)
		}
		if r.over || r.pace.paused {
			return -1, nil
		}
		r.pace.next(r.place, now)
		if wait := r.pace.until(r.place, now); wait > 0 {
			return wait, nil
		}
		r.feed()
	}
	return 0, nil
}

// read makes sure that the next datagram is there, or that the recording is over.
func (r *replay) read() (err error) {
	if r.take == nil {
		if r.take, err = r.recordings.Open(r.id, r.name, &r.screen); err != nil {
			return err
		}
	}
	if r.full || r.over {
		return nil
	}
	r.place, err = r.take.Next()
	if errors.Is(err, io.EOF) {
		r.over = true
		r.take.End("the recording ended")
		r.place = r.length
		r.pace.set(r.pace.pace, true, time.Now())
		r.pace.place = r.length
		if math.IsNaN(r.seek) {
			r.tell()
		}
		return nil
	}
	r.full = err == nil
	return err
}

func (r *replay) feed() {
	r.full, r.fed = false, r.place
	r.take.Feed()
}

// arrive shows the viewers the place sought.
func (r *replay) arrive(now time.Time) {
	r.pace.stand(min(r.seek, r.length), now)
	if r.over {
		r.pace.stand(r.length, now)
	}
	r.seek = math.NaN()
	r.screen.unveil()
}

// carryOut does what was asked, and tells whether the replay is to end.
func (r *replay) carryOut(q question, now time.Time) (stop bool) {
	if q.Stop {
		q.answer <- answer{state: r.state(now)}
		return true
	}
	pace, paused := r.pace.pace, r.pace.paused
	if q.Pace != nil {
		pace = *q.Pace
	}
	if q.Paused != nil {
		paused = *q.Paused
	}
	switch {
	case q.Position != nil:
		if q.Paused == nil && r.over {
			paused = false
		}
		r.pace.set(pace, paused, now)
		r.goTo(min(*q.Position, r.length))
	case q.Pace != nil || q.Paused != nil:
		if r.over && !paused && r.pace.paused { // go on at the end: from the beginning
			r.goTo(0)
		}
		r.pace.set(pace, paused, now)
		r.tell()
	}
	if q.Position != nil || q.Pace != nil || q.Paused != nil {
		r.seen = now
	}
	q.answer <- answer{state: r.state(now)}
	return false
}

// goTo seeks a place. What lies behind can only be reached from the beginning.
func (r *replay) goTo(place float64) {
	r.seek = place
	r.screen.muted = true
	if r.over || r.fed > place {
		r.restart()
	}
}

func (r *replay) restart() {
	if r.take != nil {
		_ = r.take.Close() // it was only read
	}
	r.take, r.full, r.over, r.fed = nil, false, false, -1
	r.screen.scene = &hub.Scene{}
}

// position is where the replay stands, s.
func (r *replay) position(now time.Time) float64 {
	if !math.IsNaN(r.seek) {
		return min(r.seek, r.length)
	}
	return min(max(0, r.pace.now(now)), r.length)
}

func (r *replay) state(now time.Time) web.ReplayState {
	return web.ReplayState{Station: r.name, Replaying: r.standing(now)}
}

func (r *replay) standing(now time.Time) message.Replaying {
	return message.Replaying{
		Session:  r.id,
		Position: math.Round(r.position(now)*100) / 100,
		Duration: math.Round(r.length*100) / 100,
		Pace:     r.pace.pace,
		Paused:   r.pace.paused,
		Over:     r.over,
	}
}

// tell says where the replay stands.
func (r *replay) tell() {
	if r.screen.muted || r.screen.info.Name == "" {
		return
	}
	r.hub.Event(message.Message{Station: r.name, Body: r.dressed(r.screen.info)})
}

// dressed is what the recorded station says of itself, as that of the replay.
func (r *replay) dressed(info message.Station) *message.Station {
	standing := r.standing(time.Now())
	info.Name, info.Replay = r.name, &standing
	if info.Link != message.LinkGone {
		info.Link = message.LinkReplaying
	}
	return &info
}

// A screen is the output of the recorded session: it goes to the hub, except while a place is
// sought. The scene is kept all along, so that what is sought further on need not begin again.
type screen struct {
	replay *replay
	scene  *hub.Scene
	info   message.Station // as the recorded session says it
	muted  bool
	frames bool // while muted: frames are wanted for the trace
}

// Event passes a message on, under the number that comes next.
func (s *screen) Event(m message.Message) {
	m.Station, m.Seq = s.replay.name, 0
	switch x := m.Body.(type) {
	case *message.Station:
		s.info = *x
		s.info.Link = message.LinkReplaying // a replay goes only when it is stopped
		m.Body = s.replay.dressed(s.info)
	case *message.Session:
		return // a replay is no session of its station
	}
	s.scene.Event(m)
	if !s.muted {
		s.replay.hub.Event(m)
	}
}

// Frame passes a frame on.
func (s *screen) Frame(_ string, f *coach.Frame) {
	s.scene.Frame(f)
	if !s.muted {
		s.replay.hub.Frame(s.replay.name, f)
	}
}

// Watched tells whether frames are of use.
func (s *screen) Watched(string) bool { return !s.muted || s.frames }

// unveil shows what was put together while muted.
func (s *screen) unveil() {
	s.muted, s.frames = false, false
	info := s.info
	if info.Name == "" { // nothing was fed yet
		info.Name = s.replay.name
		s.info = info
	}
	s.scene.Event(message.Message{Body: s.replay.dressed(info)})
	s.replay.hub.Show(s.replay.name, s.scene)
}
