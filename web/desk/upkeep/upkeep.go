// Package upkeep is the server's background work on stored sessions: it compresses complete recordings, deletes old
// sessions, and notices when a data directory that could not be written can be.
package upkeep

import (
	"context"
	"sync"
	"sync/atomic"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/underway"
	"halfturn/coach/who"
	"halfturn/stream/contain"
)

// Config is what an Upkeep works with.
type Config struct {
	Book      *archive.Archive
	Compress  bool              // complete files, with zstd
	Retention archive.Retention // what is kept; zero keeps everything
	Each      func(time.Time)   // called about once a second
	Faults    *contain.Faults   // contains those of one job; nil: they end the program
	Log       zerolog.Logger
}

// An Upkeep owns the goroutine that does the work.
type Upkeep struct {
	cfg    Config
	way    atomic.Pointer[way]
	files  chan string
	tidy   chan struct{}
	cancel context.CancelFunc // nil before Start
	wait   sync.WaitGroup
}

const (
	pace       = time.Second
	pruneEvery = time.Hour
	mostFiles  = 256 // that wait to be compressed; others are found at the next start
)

// New returns an Upkeep that does nothing before Start.
func New(cfg Config) *Upkeep {
	u := &Upkeep{cfg: cfg, files: make(chan string, mostFiles), tidy: make(chan struct{}, 1)}
	u.way.Store(&way{cfg.Compress, cfg.Retention})
	return u
}

// A way is how sessions are kept; it may change while the work goes on.
type way struct {
	compress  bool
	retention archive.Retention
}

// Change changes how sessions are kept from now on. It does not wait.
func (u *Upkeep) Change(compress bool, r archive.Retention) {
	u.way.Store(&way{compress, r})
	u.Ended()
}

// Start starts the work, which Close ends.
func (u *Upkeep) Start() {
	ctx, cancel := context.WithCancel(context.Background())
	u.cancel = cancel
	u.wait.Go(func() { u.run(ctx) })
	u.wait.Go(func() { u.mend(ctx) })
}

// Close stops the work and waits for it.
func (u *Upkeep) Close() {
	if u.cancel != nil {
		u.cancel()
		u.wait.Wait()
	}
}

// Complete is called when a file of a recording is complete. It does not wait.
func (u *Upkeep) Complete(file string) {
	select {
	case u.files <- file:
	default: // the next start finds it
	}
}

// Ended is called when a session is over: old sessions are deleted soon. It does not wait.
func (u *Upkeep) Ended() {
	select {
	case u.tidy <- struct{}{}:
	default:
	}
}

func (u *Upkeep) run(ctx context.Context) {
	ticker := time.NewTicker(pace)
	defer ticker.Stop()
	u.cfg.Faults.Run("upkeep", "earlier recordings", func() {
		u.cfg.Book.Folders().TidyAll(ctx, u.way.Load().compress, func(err error) {
			u.cfg.Log.Warn().Err(err).Msg("a recording of an earlier run")
		})
	})
	pruned := time.Time{}
	for {
		select {
		case <-ctx.Done():
			return
		case file := <-u.files:
			u.cfg.Faults.Run("upkeep", file, func() { u.compress(file) })
		case <-u.tidy:
			pruned = time.Time{}
		case now := <-ticker.C:
			u.cfg.Faults.Run("upkeep", "each second", func() {
				u.cfg.Each(now)
			})
			if now.Sub(pruned) > pruneEvery {
				pruned = now
				u.cfg.Faults.Run("upkeep", "pruning", func() { u.prune(ctx, now) })
			}
		}
	}
}

// mend tries about once a second whether what could not be written can be written now. It is apart from the other work:
// a database that does not answer is waited for.
func (u *Upkeep) mend(ctx context.Context) {
	ticker := time.NewTicker(pace)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
			u.cfg.Faults.Run("upkeep", "mending", func() { u.Mend(ctx) })
		}
	}
}

// Mend tries whether a data directory that could not be written can be written now, and whether the database of the
// logbook answers that did not at the start.
func (u *Upkeep) Mend(ctx context.Context) {
	away := u.cfg.Book.Away() != nil
	mended, err := u.cfg.Book.Mend(ctx)
	if away {
		if mended {
			u.cfg.Log.Warn().Msg("the logbook is open: what was flown meanwhile is entered now")
		} else if err != nil && ctx.Err() == nil {
			u.cfg.Log.Debug().Err(err).Msg("the logbook still cannot be opened")
		}
		return
	}
	if mended {
		u.cfg.Log.Warn().
			Str("sessions", u.cfg.Book.Dir()).
			Msg("the data directory can be written: sessions are kept from now on")
	} else if err != nil {
		u.cfg.Log.Debug().Err(err).Msg("the data directory still cannot be written")
	}
}

func (u *Upkeep) compress(file string) {
	if !u.way.Load().compress {
		return
	}
	if err := underway.Compress(file); err != nil {
		u.cfg.Log.Warn().Err(err).Str("file", file).Msg("the recording is kept uncompressed")
	}
}

// prune deletes old sessions. The server does it for the owner of the machine, who configured it.
func (u *Upkeep) prune(ctx context.Context, now time.Time) {
	r := u.way.Load().retention
	if r.Age <= 0 && r.Size <= 0 {
		return
	}
	gone, err := u.cfg.Book.Prune(ctx, who.Owner(), r, now, false)
	for _, p := range gone {
		u.cfg.Log.Info().
			Str("session", p.ID).
			Int64("bytes", p.Bytes).
			Str("why", p.Why).
			Msg("an old session was deleted, as configured; mark those to keep")
	}
	if err != nil && ctx.Err() == nil {
		u.cfg.Log.Warn().Err(err).Msg("old sessions cannot be deleted")
	}
}
