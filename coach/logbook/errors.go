package logbook

import (
	"errors"
	"fmt"

	"halfturn/stream/phrase"
)

// NotFound says that there is no such session.
type NotFound struct{ ID string }

// Error names the session.
func (n *NotFound) Error() string { return n.Phrase().String() }

// Phrase returns the sentence.
func (n *NotFound) Phrase() phrase.Phrase {
	return phrase.NoSuchSession.Of(phrase.Name("session", n.ID))
}

// Refused is an error of what was asked for, in words for the person who asked.
type Refused struct{ Words string }

// Refuse returns the error that says a phrase.
func Refuse(p phrase.Phrase) error { return &Refused{p.String()} }

// Error returns the words.
func (r *Refused) Error() string { return r.Words }

// ErrAway is what an error is ([errors.Is]) when the database cannot be reached now: that mends itself once it is back,
// and the change may be made again then.
var ErrAway = errors.New("the database is away")

// Fenced says that another node has a session: it was changed under a greater fence. It is final for that fence.
type Fenced struct {
	ID        string
	Fence, Is uint64
}

// Error says so.
func (f *Fenced) Error() string {
	return fmt.Sprintf("session %s was taken over by another node (fence %d, now %d): what this one has of it is not "+
		"entered", f.ID, f.Fence, f.Is)
}

// A Failure says plainly why the logbook could not do what it was asked, and what to do.
type Failure struct {
	Words string
	Err   error // what the disk or the engine said; may be nil

	Damaged    bool // the file itself is broken
	Unwritable bool // the disk is full or read-only: that may mend itself
	Away       bool // the database cannot be reached: the error is [ErrAway]
	Lost       bool // the file may not be the one that was opened any more: its disk failed, or was taken out
}

// Error returns the words.
func (e *Failure) Error() string { return e.Words }

// Is reports whether it is [ErrAway].
func (e *Failure) Is(target error) bool { return target == ErrAway && e.Away }

// Unwrap returns what the disk or the engine said.
func (e *Failure) Unwrap() error { return e.Err }
