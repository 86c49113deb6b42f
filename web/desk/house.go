package desk

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// Recording says how sessions are recorded.
type Recording struct {
	Rotate    int64                                  // bytes after which the next file begins; 0: 64 MiB
	Compress  bool                                   // by zstd, once a file is complete
	Retention archive.Retention                      // what is kept
	Open      func(name string) (record.File, error) // makes a file; nil: on disk
}

// A house is the desk's housekeeping, in a goroutine of its own: it compresses files that are
// complete, deletes what is kept long enough, and ends sessions that nobody came back to.
type house struct {
	files chan string
	tidy  chan struct{}
	stop  context.CancelFunc // nil before it runs
	wait  sync.WaitGroup
}

func newHouse() *house {
	return &house{files: make(chan string, 256), tidy: make(chan struct{}, 1)}
}

// Start goes on where the last run of the server was stopped or broke off, and begins the
// housekeeping. Close ends that. When ctx ends, sessions that were not looked at yet are left to the next start.
func (d *Desk) Start(ctx context.Context, now time.Time) {
	d.resume(ctx, now)
	house, stop := context.WithCancel(context.Background())
	d.house.stop = stop
	d.house.wait.Go(func() { d.keepHouse(house) })
}

// Stopping tells that the server stops: sessions that end from here on may be gone on with.
func (d *Desk) Stopping() { d.stopping.Store(true) }

// Close ends the housekeeping and waits for it.
func (d *Desk) Close() {
	if d.house.stop != nil {
		d.house.stop()
		d.house.wait.Wait()
	}
	d.save()
	d.quiet.Close()
}

const (
	paceOfHouse = time.Second
	tidyEvery   = time.Hour
)

func (d *Desk) keepHouse(ctx context.Context) {
	ticker := time.NewTicker(paceOfHouse)
	defer ticker.Stop()
	d.compressLeft(ctx)
	tidied := time.Time{}
	for {
		select {
		case <-ctx.Done():
			return
		case name := <-d.house.files:
			d.compress(name)
		case <-d.house.tidy:
			tidied = time.Time{}
		case now := <-ticker.C:
			d.mend(ctx)
			d.expire(now)
			d.save()
			if now.Sub(tidied) > tidyEvery {
				tidied = now
				d.prune(ctx, now)
			}
		}
	}
}

// mend looks whether a data directory that could not be written now can.
func (d *Desk) mend(ctx context.Context) {
	if mended, err := d.cfg.Book.Mend(ctx); mended {
		d.cfg.Log.Warn().Str("sessions", d.cfg.Book.Dir()).Msg("the data directory can be written: what is flown from here on is kept")
	} else if err != nil {
		d.cfg.Log.Debug().Err(err).Msg("the data directory still cannot be written")
	}
}

// closed takes a file that is complete.
func (d *Desk) closed(name string) {
	select {
	case d.house.files <- name:
	default: // the next start finds it
	}
}

// tidy asks for what is kept long enough to be deleted.
func (d *Desk) tidy() {
	select {
	case d.house.tidy <- struct{}{}:
	default:
	}
}

func (d *Desk) compress(name string) {
	if d.cfg.Recording == nil || !d.cfg.Recording.Compress {
		return
	}
	if err := record.Compress(name); err != nil {
		d.cfg.Log.Warn().Err(err).Str("file", name).Msg("the recording is kept uncompressed")
	}
}

// compressLeft removes what an interrupted compression left, and compresses what an earlier run did not.
func (d *Desk) compressLeft(ctx context.Context) {
	if d.cfg.Recording == nil {
		return
	}
	entries, err := os.ReadDir(d.cfg.Book.Dir())
	if err != nil {
		return // it is said where it matters
	}
	for _, e := range entries {
		dir := filepath.Join(d.cfg.Book.Dir(), e.Name())
		if ctx.Err() != nil || !e.IsDir() || !folder.IsID(e.Name()) || record.Unfinished(dir) {
			continue // an unfinished one was repaired
		}
		if err := record.Tidy(dir); err != nil {
			d.cfg.Log.Warn().Err(err).Str("session", e.Name()).Msg("what an interrupted compression left cannot be removed")
		}
		parts, _ := record.Parts(dir) // one that cannot be read stays as it is
		for _, name := range parts {
			if !strings.HasSuffix(name, ".zst") && ctx.Err() == nil {
				d.compress(name)
			}
		}
	}
}

func (d *Desk) prune(ctx context.Context, now time.Time) {
	if d.cfg.Recording == nil {
		return
	}
	r := d.cfg.Recording.Retention
	if r.Age <= 0 && r.Size <= 0 {
		return
	}
	gone, err := d.cfg.Book.Prune(ctx, who.Owner(), r, now, false)
	for _, p := range gone {
		d.cfg.Log.Info().Str("session", p.ID).Int64("bytes", p.Bytes).Str("why", p.Why).Msg("an old session was deleted, as configured; mark those to keep")
	}
	if err != nil && ctx.Err() == nil {
		d.cfg.Log.Warn().Err(err).Msg("old sessions cannot be deleted")
	}
}

// fingerprint stands for the text of all cards and maps.
func (d *Desk) fingerprint() string {
	h := sha256.New()
	for _, c := range logbook.CardsOf(d.cfg.Library) {
		h.Write([]byte(c.Hash()))
	}
	h.Write([]byte(d.cfg.Maps))
	return hex.EncodeToString(h.Sum(nil))
}
