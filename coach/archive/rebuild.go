package archive

import (
	"context"
	"errors"
	"fmt"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

// Rebuild rebuilds the logbook from the session folders and returns how many sessions it holds then. Others see the old
// one until it is done. A folder that cannot be taken in is reported and left out of the logbook, not removed: LeftOut
// lists those. Progress is called after each folder; it may be nil.
func (a *Archive) Rebuild(ctx context.Context, by who.Who, progress func(done, of int)) (n int, err error) {
	book, err := a.writable()
	if err != nil {
		return 0, err
	}
	if n, err = a.rebuild(ctx, book, progress); err == nil {
		a.options.Log("logbook rebuilt", by, "")
	}
	return n, err
}

func (a *Archive) rebuild(ctx context.Context, book logbook.Book, progress func(done, of int)) (int, error) {
	all, err := a.sessions(ctx)
	if err != nil {
		return 0, err
	}
	for _, id := range all { // before the lock, which must not wait for the depot
		if err := errors.Join(ctx.Err(), a.bringToRebuild(id)); err != nil {
			return 0, err // the old logbook stays
		}
	}
	lock, err := a.lock()
	if err != nil {
		return 0, err
	}
	defer lock.Close()
	n, err := book.Rebuild(ctx, func(yield func(*logbook.Stored) bool) {
		for i, id := range all {
			if !yield(a.reader().Stored(a.path(id), true)) {
				return
			}
			if progress != nil {
				progress(i+1, len(all))
			}
		}
	}, a.tellLeftOut)
	return n, a.lost(err)
}

func (a *Archive) tellLeftOut(id string, why error) {
	a.options.Tell(fmt.Sprintf("session %s is left out of the logbook: %v; its folder stays as it is", id, why))
}
