package logbook

import "fmt"

// NotFound says that there is no such session.
type NotFound struct{ ID string }

// Error names the session.
func (n *NotFound) Error() string { return fmt.Sprintf("there is no session %q in the logbook", n.ID) }

// Refused is an error of what was asked for, in words for whoever asked.
type Refused struct{ Words string }

// Error returns the words.
func (r *Refused) Error() string { return r.Words }

// A Failure says plainly why the logbook could not do what it was asked, and what to do.
type Failure struct {
	Words string
	Err   error // what the disk or the engine said; may be nil

	Damaged    bool // the file itself is broken
	Unwritable bool // the disk is full or read-only: that may mend itself
	Lost       bool // the file may not be the one that was opened any more: its disk failed, or was taken out
}

// Error returns the words.
func (e *Failure) Error() string { return e.Words }

// Unwrap returns what the disk or the engine said.
func (e *Failure) Unwrap() error { return e.Err }
