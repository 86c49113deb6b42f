package archive

import (
	"fmt"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
)

// Under enters what this node flies under the fence of its lease: once another node has entered something of the
// session under a greater one, the logbook refuses it, and the error is a [*logbook.Fenced].
type Under struct {
	archive *Archive
	fence   uint64
}

// Under enters sessions under a fence; 0 is that under which this node holds a session without a lease.
func (a *Archive) Under(fence uint64) Under { return Under{a, fence} }

// fence is that of a change: what it says itself, or under which this node holds the session where it says nothing.
func (a *Archive) fence(id string, says uint64) uint64 {
	if says > 0 || a.shared == nil {
		return says
	}
	fence, _, _ := a.shared.holds(id)
	return fence
}

// Begin is that of an [Archive].
func (u Under) Begin(e logbook.Entry) error {
	a := u.archive
	if err := a.folders.Make(e.ID); err != nil {
		return err
	}
	if e.Version == "" {
		e.Version = a.options.Version
	}
	return a.change(e.ID, change{
		begins: true,
		fence:  u.fence,
		check: func(b logbook.Book, f *folder.Edit) error {
			if err := folder.KeepCards(f.Dir, e.Cards); err != nil {
				return fmt.Errorf("session %s cannot be kept: %w", e.ID, err)
			}
			student, err := studentNamed(b, e.Student.Name, e.Began)
			if err != nil {
				return err
			}
			e.Student = student
			f.Begin(&e)
			return nil
		},
		enter: func(b logbook.Changes, f *folder.Edit) error {
			e.Key, e.Student, e.Began = f.Notes.Key, f.Standing().Student, f.Notes.Began
			return b.Begin(&e)
		},
	})
}

// Keep is that of an [Archive].
func (u Under) Keep(id string, r *debrief.Report) error {
	book, err := u.archive.writable()
	if err != nil {
		return err
	}
	return u.archive.lost(logbook.Under(book, u.archive.fence(id, u.fence)).Keep(id, r))
}

// End is that of an [Archive].
func (u Under) End(id string, ended time.Time) error {
	return u.archive.change(id, change{
		fence: u.fence,
		check: func(_ logbook.Book, f *folder.Edit) error {
			f.Notes.Ended, f.Noted = ended.UTC().Truncate(time.Millisecond), true
			return nil
		},
		enter: func(b logbook.Changes, f *folder.Edit) error { return b.End(id, ended) },
	})
}

// Reenter enters a session that has ended from its folder, as a rebuild does: with the report that lies there, or
// graded again from the recording.
func (u Under) Reenter(id string) error {
	a := u.archive
	book, err := a.writable()
	if err != nil {
		return err
	}
	if err := a.bring(id, true); err != nil {
		return err
	}
	unlock, err := a.lockEverywhere(book, id)
	if err != nil {
		return err
	}
	defer unlock()
	lock, err := a.lock()
	if err != nil {
		return err
	}
	defer lock.Close()
	why, err := logbook.Under(book, a.fence(id, u.fence)).Take(a.reader().Stored(a.path(id), true))
	if err == nil && why != nil {
		a.options.Tell(fmt.Sprintf("session %s: what its folder says is not taken into the logbook: %v", id, why))
	}
	return a.lost(err)
}
