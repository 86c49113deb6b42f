package archive

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"

	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
)

// sessions lists all sessions there are, oldest first: those here, and those in the depot.
func (a *Archive) sessions(ctx context.Context) ([]string, error) {
	all, err := folder.IDs(a.dir)
	if err != nil || a.shared == nil {
		return all, err
	}
	all = slices.DeleteFunc(all, func(id string) bool {
		_, held, _ := a.shared.holds(id)
		return !held
	})
	err = a.shared.All(ctx, func(id string) error {
		all = append(all, id)
		return nil
	})
	slices.Sort(all)
	return slices.Compact(all), err
}

// bringToRebuild brings what the logbook knows of a session: without its grades those are made from its recording.
func (a *Archive) bringToRebuild(id string) error {
	err := a.bring(id, false)
	if a.shared == nil || err != nil {
		return err
	}
	if _, failed := os.Stat(filepath.Join(a.path(id), folder.SummaryFile)); failed != nil && a.options.Regrade != nil {
		return a.bring(id, true)
	}
	return nil
}

// sizes returns what says how much a session takes. In the depot that is asked only where it matters.
func (a *Archive) sizes(ctx context.Context, r Retention) (func(id string) (int64, error), error) {
	if a.shared == nil || r.Size <= 0 {
		return func(id string) (int64, error) { return sizeOf(a.path(id)) }, nil
	}
	all, err := a.shared.Sizes(ctx)
	return func(id string) (int64, error) {
		here, err := sizeOf(a.own(id))
		return max(here, all[id]), err
	}, err
}

// takeOutShared is takeOut of a session that other nodes may have or change.
func (a *Archive) takeOutShared(book logbook.Book, id, to string) error {
	unlock, err := a.lockEverywhere(book, id)
	if err != nil {
		return err
	}
	defer unlock()
	if err := a.catchUp(book, id, false); err != nil {
		return a.shared.explain(id, err)
	}
	return errors.Join(a.takeOut(book, id, to), a.shared.dropCopy(id))
}

// removeNameShared takes a name out of a session in the depot.
func (a *Archive) removeNameShared(book logbook.Book, id, name string, others []string) (damaged []error, err error) {
	unlock, err := a.lockEverywhere(book, id)
	if err != nil {
		return nil, err
	}
	defer unlock()
	if err := a.bringLocked(id, true, true); err != nil {
		return nil, a.shared.explain(id, err)
	}
	fence, held, _ := a.shared.holds(id)
	dir := a.path(id)
	damaged, err = a.removeNameHere(book, id, name, others, func() error {
		ctx, stop := context.WithTimeout(context.Background(), wholeWait)
		defer stop()
		p := remote.Push{Purge: true}
		if held {
			p = remote.Push{Held: true, Fence: fence, Whole: true, Merge: true, Purge: true,
				Parts: func(string) bool { return true }}
		}
		_, err := a.shared.Push(ctx, id, dir, p)
		if err != nil && !held {
			err = errors.Join(err, a.shared.dropCopy(id)) // it is brought again, with the name, and tried again
		}
		return a.shared.explain(id, a.shared.note(id, err))
	})
	return damaged, err
}
