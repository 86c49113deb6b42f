package spool

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/remote"
	"halfturn/stream/contain"
	"halfturn/stream/record"
)

// Options say how a spool works. Zero fields take the defaults.
type Options struct {
	// Fence says under which fence this node holds a session, or held it when it flew it; false: it does not, or not
	// yet. Nil: 0 for all.
	Fence func(session string) (fence uint64, ok bool)
	// Every is how long what was recorded waits for its piece; 3 s.
	Every time.Duration
	// Piece is the size of a piece, bytes at most; 1 MiB.
	Piece int64
	// Compress says that complete files will be compressed, which is waited for.
	Compress func() bool
	// Workers is how many sessions are stored at once; 4.
	Workers int
	// Evict says how much of what is in the depot stays here.
	Evict  archive.Eviction
	Log    zerolog.Logger
	Faults *contain.Faults // contains those of one session; nil: they end the program

	sendWait  time.Duration // for a session to be stored; 10 min
	retryLast time.Duration // the longest until something is tried again; 15 s
}

// How long something waits.
const (
	soon         = 200 * time.Millisecond // several changes of a session are stored together
	packing      = 30 * time.Second       // for a file to be compressed
	unpacked     = time.Second            // to look again whether it is
	retryFirst   = time.Second            // for a depot that is away
	retryLast    = 15 * time.Second
	quietEvery   = 20 * time.Millisecond
	evictEvery   = 10 * time.Minute
	sweepEvery   = 24 * time.Hour
	sendWait     = 10 * time.Minute // for a session to be stored
	abandonedFor = 24 * time.Hour   // what a program that died was storing
)

// A Spool stores what a node records. It is safe for concurrent use.
type Spool struct {
	opt  Options
	wake chan struct{}

	mu      sync.Mutex
	book    *archive.Archive // nil before Run
	jobs    map[string]*job
	away    time.Time // since when the depot does not answer; zero while it does
	why     error     // the first thing it said
	retry   time.Duration
	next    time.Time // when it is tried again
	stored  int64     // bytes, since the start
	refused int64     // sessions that other nodes have taken over
	answers int64     // of the depot, since the start
}

// New returns a spool. What it is told before Run is stored then.
func New(o Options) *Spool {
	if o.Every <= 0 {
		o.Every = 3 * time.Second
	}
	if o.Piece <= 0 {
		o.Piece = 1 << 20
	}
	if o.Workers <= 0 {
		o.Workers = 4
	}
	if o.sendWait <= 0 {
		o.sendWait = sendWait
	}
	if o.retryLast <= 0 {
		o.retryLast = retryLast
	}
	if o.Fence == nil {
		o.Fence = func(string) (uint64, bool) { return 0, true }
	}
	if o.Compress == nil {
		o.Compress = func() bool { return false }
	}
	return &Spool{opt: o, wake: make(chan struct{}, 1), jobs: map[string]*job{}}
}

// Depot completes what an archive needs to know of the depot, for this spool.
func (s *Spool) Depot(in depot.Depot, node string) archive.Depot {
	return archive.Depot{In: in, Node: node, Holds: s.opt.Fence, Unsent: s.Unsent}
}

// Run stores what is recorded, beginning with what an earlier run left, until the context ends.
func (s *Spool) Run(ctx context.Context, book *archive.Archive) {
	s.mu.Lock()
	s.book = book
	s.mu.Unlock()
	s.find()
	var wait sync.WaitGroup
	defer wait.Wait()
	work := make(chan *job)
	defer close(work)
	for range s.opt.Workers {
		wait.Go(func() {
			for j := range work {
				s.work(ctx, j)
			}
		})
	}
	wait.Go(func() { s.keepHouse(ctx) })
	timer := time.NewTimer(0)
	defer timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-s.wake:
		case <-timer.C:
		}
		for {
			j, again := s.due(time.Now())
			if j == nil {
				timer.Reset(again)
				break
			}
			select {
			case work <- j:
			case <-ctx.Done():
				return
			}
		}
	}
}

// Quiet waits until nothing waits to be stored, or the depot is away, for a time at most.
func (s *Spool) Quiet(most time.Duration) {
	for end := time.Now().Add(most); time.Now().Before(end); <-time.After(quietEvery) {
		if st := s.State(); st.Sessions == 0 || !st.Away.IsZero() {
			return
		}
	}
}

// find makes jobs of what an earlier run left.
func (s *Spool) find() {
	ids, err := s.book.Waiting()
	if err != nil {
		s.opt.Log.Error().Err(err).Msg("what an earlier run left cannot be stored")
	}
	for _, id := range ids {
		dir := filepath.Join(s.book.Dir(), id)
		parts, _ := record.Parts(dir) // of a folder that cannot be read nothing is stored, and that is told
		for _, p := range parts {
			if info, err := os.Stat(p); err == nil && !strings.HasSuffix(p, ".zst") && !s.tells(id, p) {
				s.recorded(id, p, info.Size(), false)
			}
		}
		s.Unsent(id)
	}
}

// tells reports whether it is told how much of a file stays, as it is recorded now.
func (s *Spool) tells(id, file string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	j := s.jobs[id]
	return j != nil && j.parts[record.PartNumber(file)] != nil
}

// due returns the session that may be stored now, or after how long to look again: first the one that waits longest of
// those that were not tried in vain, then the one whose try is longest ago.
func (s *Spool) due(now time.Time) (first *job, again time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	again = time.Minute
	if !s.away.IsZero() {
		if s.next.After(now) {
			return nil, s.next.Sub(now)
		}
		for _, j := range s.jobs {
			if j.busy { // it finds out whether the depot is back
				return nil, s.retry
			}
		}
	}
	for _, j := range s.jobs {
		switch {
		case j.busy || j.idle():
		case j.due.After(now):
			again = min(again, j.due.Sub(now))
		case first == nil || j.before(first):
			first = j
		}
	}
	if first != nil {
		first.busy = true
	}
	return first, again
}

// stir has Run look for what is due.
func (s *Spool) stir() {
	select {
	case s.wake <- struct{}{}:
	default: // it looks anyway
	}
}

// work stores what waits of a session.
func (s *Spool) work(ctx context.Context, j *job) {
	within, stop := context.WithTimeout(ctx, s.opt.sendWait)
	defer stop()
	err := errors.New("a fault: the log has it")
	j.asked = false
	s.opt.Faults.Run("spool", j.id, func() { err = s.store(within, j) })
	s.mu.Lock()
	defer s.mu.Unlock()
	defer s.stir()
	now := time.Now()
	j.busy = false
	stands := errors.Is(err, context.DeadlineExceeded) && within.Err() != nil
	switch {
	case ctx.Err() != nil:
		j.due = now.Add(s.opt.Every)
	case stands, errors.Is(err, depot.ErrAway), errors.Is(err, depot.ErrDenied):
		s.unanswered(j, err, now)
	case errors.Is(err, remote.ErrFenced), errors.Is(err, remote.ErrRemoved):
		s.refused++
		j.lost = true
		s.opt.Log.Warn().Err(err).Str("session", j.id).Msg("what this node has of the session is not stored")
	case err != nil:
		s.failed(j, err, now)
		s.back(j, now)
	default:
		j.failed, j.tried = nil, time.Time{}
		s.back(j, now)
		if j.idle() && j.over {
			delete(s.jobs, j.id)
		}
	}
}

// failed notes that a session could not be stored, and not because the depot is away; mu is held.
func (s *Spool) failed(j *job, err error, now time.Time) {
	if j.failed == nil || j.failed.Error() != err.Error() {
		s.opt.Log.Error().Err(err).Str("session", j.id).Msg("the session cannot be stored; it is tried again")
	}
	j.failed, j.due = err, now.Add(s.opt.retryLast)
}

// unanswered notes that the depot did not answer about a session, or refused it: all wait for it to come back. Where
// it has answered about others since the last time, this session alone waits; mu is held.
func (s *Spool) unanswered(j *job, err error, now time.Time) {
	if j.tried.IsZero() {
		j.answers = s.answers
	}
	j.tried = now
	if s.answers > j.answers {
		if j.failed != nil { // told already: of another object, in other words
			err = j.failed
		}
		s.failed(j, err, now)
		return
	}
	s.gone(err, now)
}

// gone notes that the depot is away, or refuses this node; mu is held.
func (s *Spool) gone(err error, now time.Time) {
	if s.away.IsZero() {
		s.away, s.why, s.retry = now, err, retryFirst
		s.opt.Log.Error().Err(err).Msg("recordings wait on this node's disk; recording and coaching go on")
	} else {
		s.retry = min(2*s.retry, s.opt.retryLast)
	}
	s.next = now.Add(s.retry)
}

// back notes that the depot answers, if it was asked about a session; mu is held.
func (s *Spool) back(j *job, now time.Time) {
	if !j.asked {
		return
	}
	s.answers++
	if !s.away.IsZero() {
		s.opt.Log.Warn().Dur("after", now.Sub(s.away)).Msg("the depot answers again: what waits is stored")
		s.away, s.why = time.Time{}, nil
	}
}

// keepHouse removes what need not be here any more, and what programs that died left in the depot.
func (s *Spool) keepHouse(ctx context.Context) {
	ticker := time.NewTicker(evictEvery)
	defer ticker.Stop()
	var swept time.Time
	for {
		s.opt.Faults.Run("spool", "eviction", func() {
			if n, err := s.book.Evict(ctx, s.opt.Evict); err != nil && ctx.Err() == nil {
				s.opt.Log.Warn().Err(err).Msg("copies of sessions cannot be removed")
			} else if n > 0 {
				s.opt.Log.Info().Int("sessions", n).Msg("removed here what is kept in the depot")
			}
			if now := time.Now(); now.Sub(swept) > sweepEvery {
				swept = now
				if _, err := s.book.DropOld(ctx); err != nil && ctx.Err() == nil {
					s.opt.Log.Warn().Err(err).Msg("copies of sessions that were changed elsewhere cannot be removed")
				}
				s.sweep(ctx, now)
			}
		})
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
		}
	}
}

// sweep removes what programs that died left in the depot.
func (s *Spool) sweep(ctx context.Context, now time.Time) {
	sweeper, ok := s.book.Depot().(depot.Sweeper)
	if !ok {
		return
	}
	n, err := sweeper.Sweep(ctx, now.Add(-abandonedFor))
	if err != nil && ctx.Err() == nil {
		s.opt.Log.Warn().Err(err).Msg("unfinished uploads cannot be removed")
	} else if n > 0 {
		s.opt.Log.Info().Int("uploads", n).Msg("removed what was never stored to its end")
	}
}
