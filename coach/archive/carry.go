package archive

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
)

// bring brings the folder of a session that another node flew or changed: all of it, or without the files of its
// recording that are not here. While the depot is away, what is here has to do.
func (a *Archive) bring(id string, whole bool) error {
	if a.shared == nil || !folder.IsID(id) {
		return nil
	}
	unlock := a.shared.lock(id)
	defer unlock()
	return a.shared.explain(id, a.bringLocked(id, whole, false))
}

// bringLocked is bring for who holds the lock of the session; must: the state must be the newest.
func (a *Archive) bringLocked(id string, whole, must bool) error {
	s := a.shared
	if _, held, _ := s.holds(id); held {
		return nil // it is newer than that of the depot
	}
	dir := s.path(id)
	enough := isDir(dir) && (!whole || len(folder.Recording(dir)) > 0 || !hasParts(remote.StateOf(dir).Manifest))
	switch fresh, away := s.fresh(id); {
	case !must && enough && fresh && !record.Unfinished(dir), !must && enough && away:
		return nil
	}
	wait := smallWait
	if whole {
		wait = wholeWait
	}
	ctx, stop := context.WithTimeout(a.options.Context, wait)
	defer stop()
	_, err := s.Bring(ctx, id, dir, whole)
	remote.Use(dir)
	if err = s.note(id, err); errors.Is(err, depot.ErrAway) && enough && !must {
		return nil
	}
	return err
}

// hasParts reports whether a state has files of a recording.
func hasParts(m *remote.Manifest) bool {
	isPart := func(f remote.File) bool { return record.IsPart(f.Name) }
	return m == nil || !m.Whole || slices.ContainsFunc(m.Files, isPart)
}

// recorded reports whether there is a recording of a session, here or in the depot. It brings no recording.
func (a *Archive) recorded(id string) (bool, error) {
	dir, err := a.brought(id, false)
	var none *logbook.NotFound
	switch {
	case errors.As(err, &none):
		return false, nil
	case err != nil:
		return false, err
	case len(folder.Recording(dir)) > 0:
		return true, nil
	}
	return a.shared != nil && remote.StateOf(dir).Manifest != nil && hasParts(remote.StateOf(dir).Manifest), nil
}

// triesOfChange is how often a change is made that another node was faster than.
const triesOfChange = 8

// changeShared makes a change of a session that other nodes may change too.
func (a *Archive) changeShared(book logbook.Book, id string, c change) error {
	unlock, err := a.lockEverywhere(book, id)
	if err != nil {
		return err
	}
	defer unlock()
	for range triesOfChange {
		if err = a.catchUp(book, id, c.begins); a.lostToOthers(id, err) {
			err = a.catchUp(book, id, c.begins) // as a copy
		}
		if err == nil {
			err = a.changeHere(book, id, c)
		}
		if !errors.Is(err, remote.ErrStale) {
			return a.shared.explain(id, err)
		}
	}
	return &sharedError{phrase.SessionBusy.Of(phrase.Name("session", id)), err}
}

// lockEverywhere keeps all others from changing a session: those of this program, and those of other nodes where the
// logbook can. Without a depot there are no others, and the lock of the data directory does.
func (a *Archive) lockEverywhere(book logbook.Book, id string) (unlock func(), err error) {
	if a.shared == nil {
		return func() {}, nil
	}
	here := a.shared.lock(id)
	locker, ok := book.(logbook.Locker)
	if !ok {
		return here, nil
	}
	ctx, stop := context.WithTimeout(context.Background(), lockWait)
	defer stop()
	there, err := locker.LockSession(ctx, id)
	if err != nil {
		here()
		return nil, a.lost(err)
	}
	return func() {
		there()
		here()
	}, nil
}

// catchUp makes the folder of a session that is to be changed the newest.
func (a *Archive) catchUp(book logbook.Book, id string, begins bool) error {
	_, held, _ := a.shared.holds(id)
	switch _, away := a.shared.fresh(id); {
	case !held:
		return a.bringLocked(id, false, true)
	case away, begins && a.shared.depot.Unsent != nil:
		return nil // what others changed is taken in when it is stored
	}
	err := a.takeIn(book, id)
	if errors.Is(err, depot.ErrAway) {
		return nil
	}
	return err
}

// takeIn takes in what other nodes changed in a session that this one holds.
func (a *Archive) takeIn(book logbook.Book, id string) error {
	ctx, stop := context.WithTimeout(context.Background(), smallWait)
	defer stop()
	dir := a.own(id)
	if err := a.claim(id); err != nil {
		return err
	}
	before := remote.StateOf(dir).Manifest
	m, err := a.shared.Bring(ctx, id, dir, false)
	if a.shared.note(id, err) != nil || m == nil || before != nil && before.Number == m.Number {
		return err
	}
	if before == nil && m.Node == a.shared.Node() {
		return nil // stored by this node, which was stopped before it noted that
	}
	if _, err := os.Stat(filepath.Join(dir, folder.NotesFile)); err != nil {
		return disk.IgnoreGone(err)
	}
	return a.healOne(book, id)
}

// claim notes in a folder that this node holds the session.
func (a *Archive) claim(id string) error {
	fence, held, _ := a.shared.holds(id)
	st := remote.StateOf(a.own(id))
	if !held || st.Held && st.Fence == fence {
		return nil
	}
	st.Held, st.Fence = true, fence
	return st.Write(a.own(id))
}

// store stores a session that was changed. What this node holds waits where the depot is away.
func (a *Archive) store(id string, begins bool) error {
	s := a.shared
	fence, held, _ := s.holds(id)
	if !held {
		ctx, stop := context.WithTimeout(context.Background(), smallWait)
		defer stop()
		_, err := s.Push(ctx, id, s.path(id), remote.Push{})
		return s.note(id, err)
	}
	if err := a.claim(id); err != nil {
		return err
	}
	_, away := s.fresh(id)
	if s.depot.Unsent != nil && (begins || away) {
		s.unsent(id)
		return nil
	}
	ctx, stop := context.WithTimeout(context.Background(), smallWait)
	defer stop()
	_, err := s.Push(ctx, id, a.own(id), remote.Push{
		Held:   true,
		Fence:  fence,
		Flying: record.Unfinished(a.own(id)),
	})
	if err = s.note(id, err); errors.Is(err, depot.ErrAway) && s.depot.Unsent != nil {
		err = nil
	}
	s.unsent(id) // its recording, too
	return err
}

// A Sending says what is stored of a session that this node holds.
type Sending struct {
	Fence uint64
	// Parts says which files of the recording are complete while the session is flown; afterwards all are.
	Parts func(name string) bool
}

// Send stores what the depot lacks of a session that this node holds, and takes in what other nodes changed. It reports
// whether the depot has all of it: this node then holds it no more. The error is [remote.ErrFenced] when another node
// took the session over, and [remote.ErrRemoved] when it was removed: nothing of it is stored then.
func (a *Archive) Send(ctx context.Context, id string, o Sending) (whole bool, err error) {
	book, err := a.writable()
	if err != nil {
		return false, err
	}
	unlock, err := a.lockEverywhere(book, id)
	if err != nil {
		return false, err
	}
	defer unlock()
	_, held, mine := a.shared.holds(id)
	dir := a.own(id)
	if !mine {
		return true, nil
	}
	if held {
		st := remote.StateOf(dir)
		if st.Held, st.Fence = true, max(st.Fence, o.Fence); st.Write(dir) != nil {
			return false, st.Write(dir)
		}
		if err := a.takeIn(book, id); a.lostToOthers(id, err) {
			return true, nil
		} else if err != nil {
			return false, err
		}
	}
	flying := record.Unfinished(dir)
	p := remote.Push{
		Held:   held,
		Fence:  remote.StateOf(dir).Fence,
		Flying: flying,
		Parts:  o.Parts,
		Whole:  !flying,
		Merge:  true,
	}
	if !flying {
		p.Parts = func(string) bool { return true }
	}
	_, err = a.shared.Push(ctx, id, dir, p)
	if a.lostToOthers(id, err) {
		return true, nil
	}
	return err == nil && !flying, a.shared.note(id, err)
}

// Waiting lists the sessions that this node holds, oldest first, and how much of each the depot lacks, bytes.
func (a *Archive) Waiting() (ids []string, err error) {
	if a.shared == nil {
		return nil, nil
	}
	all, err := folder.IDs(a.dir)
	return slices.DeleteFunc(all, func(id string) bool {
		_, held, mine := a.shared.holds(id)
		return !mine || !held && !remote.Changed(a.own(id))
	}), err
}

// Depot is where the session folders are kept; nil without one.
func (a *Archive) Depot() depot.Depot {
	if a.shared == nil {
		return nil
	}
	return a.shared.Sessions.Depot()
}

// Pieces lists what the depot has of a recording that is being flown under a fence.
func (a *Archive) Pieces(ctx context.Context, id string, fence uint64) ([]remote.Piece, error) {
	all, err := a.shared.Pieces(ctx, id, fence)
	return all, a.shared.note(id, err)
}

// StorePiece stores a piece of a recording that is being flown under a fence. One that is there stays as it is.
func (a *Archive) StorePiece(ctx context.Context, id string, fence uint64, p remote.Piece, data []byte) error {
	return a.shared.note(id, a.shared.Store(ctx, id, fence, p, bytes.NewReader(data)))
}
