package practice

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"runtime"
	"slices"
	"sync"
	"time"

	"halfturn/coach/stations"
)

// A Backlog is the sessions that the last run of the server left under way, after a look at the head of each recording.
// [Backlog.Play] repairs and plays them, which may take long after a run that ended with many stations, and need not be
// waited for: other stations fly meanwhile. What comes for a station whose session may go on must wait until that is
// played ([Backlog.Await]); the sessions of these are played first.
type Backlog struct {
	common *Common
	now    time.Time // which of them go on was decided then

	mu    sync.Mutex
	order []*leftover          // still to be played
	of    map[string]*leftover // by station, those that may go on, until they are played here
	ended bool                 // what was not begun by now is left to the next start
}

// A leftover is the sessions that a station left, oldest first; the latest may go on. One that cannot go on is a
// leftover of its own, which no station waits for.
type leftover struct {
	station string // "": none waits
	id      string // of the station, which is kept from others
	ids     []string
	heard   bool          // somebody waits for it
	passed  bool          // the session goes on here
	left    bool          // to another machine, while it is played
	done    chan struct{} // closed once it is played, or left to the next start
}

// LookBack looks for unfinished sessions.
func LookBack(ctx context.Context, c *Common, now time.Time) *Backlog {
	b := &Backlog{common: c, now: now, of: map[string]*leftover{}}
	ids, err := c.Book.Folders().Unfinished()
	if err != nil && (c.Book.Waits() == nil || !errors.Is(err, fs.ErrNotExist)) { // else nothing was ever kept here
		c.Log.Error().Err(err).Msg("sessions of the last run cannot be looked for")
	}
	if err != nil {
		return b
	}
	for _, id := range ids {
		if ctx.Err() != nil {
			break
		}
		station, stationID := b.goesOnAt(ctx, id)
		l := b.of[station]
		if l == nil {
			l = &leftover{station: station, id: stationID, done: make(chan struct{})}
			b.order = append(b.order, l)
		}
		l.ids = append(l.ids, id)
		if station != "" {
			b.of[station] = l
		}
	}
	return b
}

// goesOnAt is the station at which a session may go on, which is kept for it; "" is none.
func (b *Backlog) goesOnAt(ctx context.Context, id string) (station, stationID string) {
	r, err := recording(ctx, b.common, id)
	if err != nil { // why is said when it is played
		return "", ""
	}
	p, _, goesOn := interrupted(b.common, id, *r.Opening(), b.now)
	if !goesOn {
		return "", ""
	}
	b.common.Directory.Restore(b, p.waits(b.now))
	return p.name, p.opening.StationID
}

// waits is the station of a session that waits for it.
func (p *Practice) waits(now time.Time) stations.Station {
	return stations.Station{ID: p.opening.StationID, Name: p.name, Sender: p.place, Seen: now}
}

// Play repairs and plays the sessions, on all processors. One that goes on is passed to goesOn, before Await returns;
// the others are ended and kept. When ctx ends, sessions that were not begun are left to the next start.
func (b *Backlog) Play(ctx context.Context, goesOn func(*Practice)) {
	end := context.AfterFunc(ctx, b.end)
	defer end()
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for l := b.next(); l != nil; l = b.next() {
				b.common.Faults.Run("station", l.station, func() { b.play(context.WithoutCancel(ctx), l, goesOn) })
				b.played(l)
			}
		})
	}
	all.Wait()
}

// end leaves the rest to the next start.
func (b *Backlog) end() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.ended = true
	for _, l := range b.order {
		close(l.done) // its station still waits: what it sends must not begin another session
	}
	b.order = nil
}

// next takes out what is to be played next; nil is nothing.
func (b *Backlog) next() (l *leftover) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.order) > 0 {
		l, b.order = b.order[0], b.order[1:]
	}
	return l
}

// play plays what a station left. Of several sessions the latest may go on.
func (b *Backlog) play(ctx context.Context, l *leftover, goesOn func(*Practice)) {
	if told := b.common.Resumes; told != nil && l.station != "" {
		told(l.station, true)
		defer told(l.station, false)
	}
	var p *Practice
	for _, id := range l.ids {
		if p != nil {
			p.End(true)
		}
		p = resumeOne(ctx, b.common, id, b.now, l.station != "")
	}
	switch {
	case p == nil:
	case b.passes(l):
		goesOn(p)
	default:
		p.Abandon()
	}
}

// passes reports whether a session that was played goes on here, and notes it.
func (b *Backlog) passes(l *leftover) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	l.passed = !l.left
	return l.passed
}

// played lets the station of what was played go on.
func (b *Backlog) played(l *leftover) {
	b.common.Directory.Release(b, l.id) // unless its session holds it
	b.mu.Lock()
	defer b.mu.Unlock()
	delete(b.of, l.station)
	close(l.done)
}

// Stations lists the stations with sessions that may go on and are not played yet.
func (b *Backlog) Stations() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return slices.Collect(maps.Keys(b.of))
}

// Await waits until the session of a station is played, if there is one: it is played before those of stations that
// are not heard. False says that it is left to the next start.
func (b *Backlog) Await(station string) bool {
	b.mu.Lock()
	l := b.of[station]
	if l == nil {
		defer b.mu.Unlock()
		return !b.ended
	}
	b.first(l)
	b.mu.Unlock()
	<-l.done
	b.mu.Lock()
	defer b.mu.Unlock()
	return !b.ended
}

// first has a leftover played before those of stations that are not heard; mu is held.
func (b *Backlog) first(l *leftover) {
	i := slices.Index(b.order, l)
	if i < 0 || l.heard { // it is being played
		return
	}
	l.heard = true
	b.order = slices.Delete(b.order, i, i+1)
	i = slices.IndexFunc(b.order, func(l *leftover) bool { return !l.heard })
	if i < 0 {
		i = len(b.order)
	}
	b.order = slices.Insert(b.order, i, l)
}

// Leave leaves the session of a station that may go on to another machine, and returns its id: it is not played here.
// Where that has begun, it returns "" at once, and the session is left when it was played; one that goes on already is
// none of the backlog any more.
func (b *Backlog) Leave(station string) (session string) {
	b.mu.Lock()
	l := b.of[station]
	if l == nil {
		b.mu.Unlock()
		return ""
	}
	i := slices.Index(b.order, l)
	if i < 0 {
		goesOn := l.passed
		l.left = !goesOn
		b.mu.Unlock()
		if goesOn {
			<-l.done // soon: it is being passed on
		}
		return ""
	}
	last := len(l.ids) - 1
	session = l.ids[last]
	if b.order = slices.Delete(b.order, i, i+1); last > 0 {
		b.order = append(b.order, &leftover{ids: l.ids[:last], done: make(chan struct{})})
	}
	b.mu.Unlock()
	b.played(l)
	return session
}
