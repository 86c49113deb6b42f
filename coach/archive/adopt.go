package archive

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
)

// Adopt takes over a session that comes from another Halfturn and that another node has received so far: its home has
// come to this one. What the depot has of it is brought, and this node holds the session from then on, under a greater
// fence: the other one stores and enters nothing of it any more. It does nothing for a session that this node holds,
// and without a depot.
func (a *Archive) Adopt(id string) error {
	if a.shared == nil {
		return nil
	}
	book, unlock, err := a.held(id)
	if err != nil {
		return err
	}
	defer unlock()
	for range triesOfChange {
		if err = a.adopt(book, id); !errors.Is(err, remote.ErrStale) {
			break
		}
	}
	return a.shared.explain(id, err)
}

// adopt is Adopt for who holds the lock of the session.
func (a *Archive) adopt(book logbook.Book, id string) error {
	ours, err := a.ours(book, id)
	if ours || err != nil {
		return err
	}
	s, own := a.shared, a.own(id)
	ctx, stop := context.WithTimeout(a.options.Context, wholeWait)
	defer stop()
	dir, whole := own, false // what this node received of the recording is as good as what the other one did
	if !isDir(own) {
		dir, whole = filepath.Join(s.copies, id), true
	}
	m, err := s.Bring(ctx, id, dir, whole)
	if err == nil && m == nil {
		err = &logbook.NotFound{ID: id}
	}
	if s.note(id, err) != nil {
		return err
	}
	if dir != own {
		if err := os.Rename(dir, own); err != nil {
			return err
		}
		if err := a.folders.Load(); err != nil {
			return err
		}
	}
	fence := m.Fence + 1
	if _, err := s.Push(ctx, id, own, remote.Push{Held: true, Fence: fence, Flying: true}); err != nil {
		return errors.Join(s.note(id, err), a.lose(id))
	}
	// The logbook learns of the fence, so that it refuses what the other node enters.
	why, err := logbook.Under(book, fence).Take(a.reader().Stored(own, false))
	if err == nil && why != nil {
		a.tellLeftOut(id, why)
	}
	return a.lost(err)
}

// ours reports whether this node holds a session: none has taken it over. While the depot is away it is as it was last.
func (a *Archive) ours(book logbook.Book, id string) (bool, error) {
	if _, held, _ := a.shared.holds(id); !held {
		return false, nil
	}
	switch err := a.takeIn(book, id); {
	case errors.Is(err, remote.ErrFenced):
		return false, a.lose(id)
	case err != nil && !errors.Is(err, depot.ErrAway):
		return false, err
	}
	return true, nil
}

// held locks a session on all nodes, and returns the logbook that it may be changed in.
func (a *Archive) held(id string) (book logbook.Book, unlock func(), err error) {
	if book, err = a.writable(); err != nil {
		return nil, nil, err
	}
	unlock, err = a.lockEverywhere(book, id)
	return book, unlock, err
}

// stillOurs returns an error for a session from another Halfturn that another node has taken over.
func (a *Archive) stillOurs(id string) error {
	if a.shared == nil || !isDir(a.own(id)) {
		return nil
	}
	book, unlock, err := a.held(id)
	if err != nil {
		return err
	}
	defer unlock()
	was := remote.StateOf(a.own(id)).Lost
	ours, err := a.ours(book, id)
	if err == nil && (was || !ours && remote.StateOf(a.own(id)).Lost) {
		err = remote.ErrFenced
	}
	return a.shared.explain(id, err)
}

// lose notes that another node has taken over a session that came from another Halfturn. What this one received stays
// until the other has all of it.
func (a *Archive) lose(id string) error {
	s := a.shared
	s.mu.Lock()
	delete(s.asked, id)
	s.mu.Unlock()
	st := remote.StateOf(a.own(id))
	st.Held, st.Lost = false, true
	return st.Write(a.own(id))
}

// lostToOthers reports whether an error says that another node has taken over a session from another Halfturn, and
// notes that.
func (a *Archive) lostToOthers(id string, err error) bool {
	return errors.Is(err, remote.ErrFenced) && folder.IsShared(a.own(id)) && a.lose(id) == nil
}

// dropLost removes what this node received of sessions that others have taken over and have all of.
func (a *Archive) dropLost(ctx context.Context) error {
	all, err := folder.IDs(a.dir)
	for _, id := range all {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if !remote.StateOf(a.own(id)).Lost {
			continue
		}
		m, failed := a.shared.Newest(ctx, id, nil)
		if errors.Is(failed, remote.ErrRemoved) || failed == nil && m != nil && m.Whole {
			failed = os.RemoveAll(a.own(id))
		}
		err = errors.Join(err, failed)
	}
	return err
}
