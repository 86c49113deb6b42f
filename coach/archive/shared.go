package archive

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"time"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// A Depot says where many nodes keep their session folders together. The data directory then holds what this node flies
// and has not stored yet, and copies of what it was asked for. The logbook is that of all nodes.
type Depot struct {
	In   depot.Depot // nil: there is none
	Node string      // the name of this node

	// Holds says under which fence this node flew a session that it has a folder of; false: it does not hold the
	// session, such as one that it only follows. Nil is fence 0 for all.
	Holds func(id string) (fence uint64, ok bool)
	// Unsent says that something of a session that this node holds waits to be stored: [Archive.Send] stores it. It
	// must not block. Nil: each change is stored at once.
	Unsent func(id string)
	// Fresh is how old the state of a session may be for who asks about it; 1 s, negative: not at all.
	Fresh time.Duration
}

// copiesDir is where the folders of sessions are that other nodes flew.
const copiesDir = "copies"

// How long the depot is waited for.
const (
	smallWait = 10 * time.Second
	wholeWait = 5 * time.Minute
	// restAfter is how long a depot that is away is not asked again by those who can do without.
	restAfter = 5 * time.Second
)

// shared is what an archive knows of the depot. Its methods do nothing when it is nil.
type shared struct {
	*remote.Sessions
	depot  Depot
	own    string // the folders of the sessions flown here
	copies string

	mu     sync.Mutex
	locks  map[string]*sessionLock
	asked  map[string]time.Time // when a session was last brought
	failed time.Time            // when the depot was last away
}

// A sessionLock is waited for by users.
type sessionLock struct {
	mu    sync.Mutex
	users int
}

func newShared(data string, d Depot) *shared {
	if d.In == nil {
		return nil
	}
	if d.Fresh == 0 {
		d.Fresh = time.Second
	}
	return &shared{
		Sessions: remote.In(d.In, d.Node),
		depot:    d,
		own:      folder.Sessions(data),
		copies:   filepath.Join(data, copiesDir),
		locks:    map[string]*sessionLock{},
		asked:    map[string]time.Time{},
	}
}

// makeCopies makes the directory of the copies.
func (s *shared) makeCopies() error {
	if s == nil {
		return nil
	}
	return errors.Join(os.MkdirAll(s.copies, 0o750), s.evicted())
}

// lock keeps other goroutines away from the folder of a session.
func (s *shared) lock(id string) (unlock func()) {
	s.mu.Lock()
	l := s.locks[id]
	if l == nil {
		l = &sessionLock{}
		s.locks[id] = l
	}
	l.users++
	s.mu.Unlock()
	l.mu.Lock()
	return func() {
		l.mu.Unlock()
		s.mu.Lock()
		defer s.mu.Unlock()
		if l.users--; l.users == 0 {
			delete(s.locks, id)
		}
	}
}

// fresh reports whether a session was brought a moment ago; with away also when the depot was away a moment ago.
func (s *shared) fresh(id string) (fresh, away bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return time.Since(s.asked[id]) < s.depot.Fresh, time.Since(s.failed) < restAfter
}

// mostAsked bounds what is remembered of sessions that were brought.
const mostAsked = 10_000

// note remembers that a session was brought, or that the depot is away, and returns the error.
func (s *shared) note(id string, err error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case errors.Is(err, depot.ErrAway):
		s.failed = time.Now()
	case err == nil:
		if len(s.asked) >= mostAsked {
			clear(s.asked)
		}
		s.asked[id], s.failed = time.Now(), time.Time{}
	}
	return err
}

// isDir reports whether there is a folder.
func isDir(dir string) bool {
	info, err := os.Stat(dir)
	return err == nil && info.IsDir()
}

// has reports whether there is a folder of a session here.
func (s *shared) has(id string) bool {
	return s != nil && (isDir(filepath.Join(s.own, id)) || isDir(filepath.Join(s.copies, id)))
}

// holds reports whether this node has something of a session that the depot lacks, and under which fence. What it has a
// folder of and does not hold is another's: the folder is not looked at.
func (s *shared) holds(id string) (fence uint64, held, mine bool) {
	dir := filepath.Join(s.own, id)
	if !isDir(dir) {
		return 0, false, false
	}
	st := remote.StateOf(dir)
	switch {
	case st.Lost:
		return 0, false, false
	case st.Held:
		return st.Fence, true, true
	case st.Manifest != nil:
		return 0, false, true
	case s.depot.Holds == nil:
		return 0, true, true
	}
	fence, held = s.depot.Holds(id)
	return fence, held, held
}

// path is where the folder of a session is: here, or as a copy.
func (s *shared) path(id string) string {
	if _, _, mine := s.holds(id); mine {
		return filepath.Join(s.own, id)
	}
	return filepath.Join(s.copies, id)
}

// unsent says that something waits to be stored.
func (s *shared) unsent(id string) {
	if s != nil && s.depot.Unsent != nil {
		s.depot.Unsent(id)
	}
}

// taken reports whether the name of a session is taken on another node.
func (s *shared) taken(id string) (bool, error) {
	ctx, stop := context.WithTimeout(context.Background(), smallWait)
	defer stop()
	is, err := s.Taken(ctx, id)
	return is, s.explain(id, err)
}

// remove removes a session from the depot.
func (s *shared) remove(id string) error {
	if s == nil {
		return nil
	}
	ctx, stop := context.WithTimeout(context.Background(), wholeWait)
	defer stop()
	return s.explain(id, s.note(id, s.Remove(ctx, id)))
}

// stays reports whether a session whose removal was interrupted is still in the depot, or nowhere but here. Its folder
// is then moved back from where it was put, and the session stays.
func (s *shared) stays(id, from, to string) (bool, error) {
	if s == nil {
		return false, nil
	}
	ctx, stop := context.WithTimeout(context.Background(), smallWait)
	defer stop()
	_, err := s.Newest(ctx, id, nil)
	switch {
	case errors.Is(err, remote.ErrRemoved):
		return false, s.explain(id, s.Remove(ctx, id))
	case err != nil:
		return false, s.explain(id, err)
	}
	return true, os.Rename(from, to)
}

// takeBack takes an interrupted change of a copy back, which may not have been stored. What was changed in a folder of
// this node stays, and is stored later.
func (s *shared) takeBack(id string) error {
	if s == nil || !isDir(filepath.Join(s.copies, id)) {
		return nil
	}
	ctx, stop := context.WithTimeout(context.Background(), smallWait)
	defer stop()
	dir := filepath.Join(s.copies, id)
	m, err := s.Newest(ctx, id, nil)
	if err != nil && !errors.Is(err, remote.ErrRemoved) {
		return err
	}
	if err := s.dropCopy(id); err != nil || m == nil {
		return err
	}
	_, err = s.Bring(ctx, id, dir, false)
	return err
}

// dropCopy removes the copy of a session.
func (s *shared) dropCopy(id string) error {
	if s == nil {
		return nil
	}
	s.mu.Lock()
	delete(s.asked, id)
	s.mu.Unlock()
	return os.RemoveAll(filepath.Join(s.copies, id))
}

// A sharedError says of a session what the depot answered, in words for people.
type sharedError struct {
	words phrase.Phrase
	err   error
}

func (e *sharedError) Error() string { return e.words.String() }

// Unwrap returns what the depot answered.
func (e *sharedError) Unwrap() error { return e.err }

// explain says of which session an error is.
func (s *shared) explain(id string, err error) error {
	var said *sharedError
	switch {
	case err == nil, errors.As(err, &said):
		return err
	case errors.Is(err, depot.ErrAway):
		return &sharedError{phrase.SessionAway.Of(phrase.Name("session", id),
			phrase.Name("store", s.depot.In.String())), err}
	case errors.Is(err, remote.ErrFenced):
		return &sharedError{phrase.SessionTaken.Of(phrase.Name("session", id)), err}
	case errors.Is(err, remote.ErrRemoved):
		return errors.Join(&logbook.NotFound{ID: id}, s.dropCopy(id))
	}
	return fmt.Errorf("session %s: %w", id, err)
}

// own is where the folder of a session lies that is flown here.
func (a *Archive) own(id string) string { return filepath.Join(a.dir, id) }

// path is where the folder of a session lies here, if it does.
func (a *Archive) path(id string) string {
	if a.shared == nil {
		return a.own(id)
	}
	return a.shared.path(id)
}
