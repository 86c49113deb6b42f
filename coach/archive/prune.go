package archive

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// Retention says what is kept. Zero values keep everything.
type Retention struct {
	Age  time.Duration // sessions that ended longer ago go
	Size int64         // bytes; the oldest sessions are removed until the rest takes no more
}

// Pruned is a session that was removed, or would be.
type Pruned struct {
	ID    string    `json:"id"`
	Began time.Time `json:"began"`
	Bytes int64     `json:"bytes"`
	Why   string    `json:"why"` // "age" or "size"
	By    who.Who   `json:"-"`   // who asked for it
}

// Prune removes sessions by age and total size, the oldest first; never one marked keep, never
// one that is being flown. With dry it only says what would go. One that cannot be removed keeps no other one:
// what was removed is returned with the error.
func (a *Archive) Prune(ctx context.Context, by who.Who, r Retention, now time.Time, dry bool) ([]Pruned, error) {
	all, total, err := a.removable(ctx, r)
	if err != nil {
		return nil, err
	}
	gone := []Pruned{}
	var failed error
	for _, p := range all {
		switch {
		case r.Age > 0 && now.Sub(p.ended) > r.Age:
			p.Why = "age"
		case r.Size > 0 && total > r.Size:
			p.Why = "size"
		default:
			continue
		}
		if err := ctx.Err(); err != nil {
			return gone, errors.Join(failed, err)
		}
		if !dry {
			err := a.remove(p.ID)
			var stays *logbook.Refused
			if errors.As(err, &stays) {
				continue // marked, gone on with or removed since it was listed
			}
			var failure *logbook.Failure
			if errors.As(err, &failure) {
				return gone, errors.Join(failed, err) // the next one fares no better
			}
			if err != nil {
				failed = errors.Join(failed, err)
				continue
			}
		}
		if !dry {
			a.options.Log("session removed by "+p.Why, by, p.ID)
		}
		total -= p.Bytes
		p.By = by
		gone = append(gone, p.Pruned)
	}
	return gone, failed
}

type removable struct {
	Pruned
	ended time.Time
}

// removable lists the sessions that may go, oldest first, and how many bytes all sessions take.
func (a *Archive) removable(ctx context.Context, r Retention) (list []removable, total int64, err error) {
	spans, err := ask(a, func(b logbook.Book) ([]logbook.Span, error) { return b.Spans(ctx) })
	if err != nil {
		return nil, 0, err
	}
	sizes, err := a.sizes(ctx, r)
	if err != nil {
		return nil, 0, err
	}
	for _, s := range spans {
		p := removable{Pruned{ID: s.ID, Began: s.Began}, s.Ended}
		if p.Bytes, err = sizes(p.ID); err != nil {
			return nil, 0, err
		}
		total += p.Bytes
		if !s.Ended.IsZero() && !s.Keep {
			list = append(list, p)
		}
	}
	return list, total, nil
}

// sizeOf adds up the files of a folder.
func sizeOf(dir string) (n int64, err error) {
	err = filepath.WalkDir(dir, func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return disk.IgnoreGone(err)
		}
		info, err := d.Info()
		if err != nil {
			return disk.IgnoreGone(err)
		}
		n += info.Size()
		return nil
	})
	return n, err
}

// remove takes a session's folder out of the way, the session out of the logbook, and then removes the folder. After an
// interruption in between the next start goes on (removeGone).
func (a *Archive) remove(id string) error {
	book, err := a.writable()
	if err != nil {
		return err
	}
	to := filepath.Join(a.dir, goneMark+id)
	if a.shared == nil {
		err = a.takeOut(book, id, to)
	} else {
		err = a.takeOutShared(book, id, to)
	}
	if err != nil {
		return err
	}
	a.at(stepEntered)
	if err := os.RemoveAll(to); err != nil {
		return fmt.Errorf("session %s is out of the logbook, but its folder cannot be removed: %w", id, err)
	}
	return nil
}

// takeOut moves the folder of a session out of the way, and takes the session out of the logbook.
func (a *Archive) takeOut(book logbook.Book, id, to string) error {
	lock, err := a.lock()
	if err != nil {
		return err
	}
	defer lock.Close()
	if err := mayGo(book, a.path(id), id); err != nil {
		return err
	}
	from := a.own(id)
	// What an earlier removal of the same name left is in the way.
	if err := errors.Join(os.RemoveAll(to), disk.IgnoreGone(os.Rename(from, to))); err != nil {
		return fmt.Errorf("the folder of session %s cannot be removed: %w", id, err)
	}
	a.at(stepMarked)
	if err := a.shared.remove(id); err != nil {
		return errors.Join(err, disk.IgnoreGone(os.Rename(to, from)))
	}
	if err := a.lost(book.Forget(id)); err != nil {
		return errors.Join(err, disk.IgnoreGone(os.Rename(to, from)))
	}
	return nil
}

// mayGo asks again whether a session may be removed: it may have been marked, or gone on with, since it was listed.
func mayGo(book logbook.Book, dir, id string) error {
	stays := logbook.Refuse(phrase.SessionStays.Of(phrase.Name("session", id)))
	d, err := book.Session(context.Background(), id)
	var none *logbook.NotFound
	switch {
	case errors.As(err, &none):
		return stays
	case err != nil:
		return err
	case d.Keep || d.Ended == "":
		return stays
	}
	n, err := folder.ReadNotes(dir)
	if err != nil || n == nil {
		return nil // the logbook knows all there is
	}
	acts, err := folder.ReadActs(dir, n)
	if err == nil && logbook.Fold(logbook.Student{}, acts).Keep {
		return stays
	}
	return nil
}

// removeGone goes on with what remove was doing when it was interrupted.
func (a *Archive) removeGone(book logbook.Book) error {
	entries, err := os.ReadDir(a.dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		id, gone := strings.CutPrefix(e.Name(), goneMark)
		if !gone || !e.IsDir() || !folder.IsID(id) {
			continue
		}
		// Else there is a new one of that name.
		if _, err := os.Lstat(a.own(id)); errors.Is(err, fs.ErrNotExist) {
			back, err := a.shared.stays(id, filepath.Join(a.dir, e.Name()), a.own(id))
			if err != nil {
				a.options.Tell(fmt.Sprintf("the removal of session %s is finished when the store answers: %v", id, err))
			}
			if back || err != nil {
				continue
			}
			if err := book.Forget(id); err != nil {
				return err
			}
		}
		if err := os.RemoveAll(filepath.Join(a.dir, e.Name())); err != nil {
			a.options.Tell(fmt.Sprintf("what is left of session %s cannot be removed: %v", id, err))
		}
	}
	return nil
}
