package archive

import (
	"context"
	"errors"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// An Awaited session comes from another Halfturn and is not complete.
type Awaited struct {
	folder.Shared
	ID string // here
}

// Awaited lists the sessions that come from other Halfturns and are not complete, oldest first.
func (a *Archive) Awaited() ([]Awaited, error) {
	all, err := folder.IDs(a.dir)
	if err != nil {
		return nil, err
	}
	var awaited []Awaited
	for _, id := range all {
		dir := a.own(id)
		if !record.Unfinished(dir) {
			continue
		}
		if a.shared != nil && remote.StateOf(dir).Lost {
			continue // another node waits for its home
		}
		if s, ok, err := folder.ReadShared(dir); ok && err == nil {
			awaited = append(awaited, Awaited{s, id})
		}
	}
	return awaited, nil
}

// Note keeps what was found out about a session that is not complete.
func (w *Awaited) Note(a *Archive) error { return w.Write(a.own(w.ID)) }

// Recorded returns when the last datagram of a session was received, by the clock of whoever recorded it; the zero time
// when there is none. A recording that breaks off counts as far as it goes.
func (a *Archive) Recorded(ctx context.Context, id string) (last time.Time, err error) {
	r := record.ReadWithin(ctx, a.Recording(id), record.Reading{})
	defer r.Close()
	for {
		d, err := r.Next()
		if err != nil {
			return last, ctx.Err()
		}
		last = d.Received
	}
}

// Leave ends a session without its home: it is graded as far as it goes, and stays open for the rest. The error is
// [remote.ErrFenced] where the home has gone to another node.
func (a *Archive) Leave(w Awaited, r *debrief.Report, ended time.Time, left folder.Left) error {
	if err := a.stillOurs(w.ID); err != nil {
		return err
	}
	if err := a.enter(w.ID, r); err != nil {
		return err
	}
	if err := a.End(w.ID, ended); err != nil {
		return err
	}
	w.Left = &left
	return w.Note(a)
}

// enter keeps the first grading of a session, in its folder and in the logbook.
func (a *Archive) enter(id string, r *debrief.Report) error {
	if r == nil {
		return nil
	}
	if _, err := a.Save(id, r); err != nil {
		return err
	}
	return a.Keep(id, r)
}

// reenter keeps the grading of a session that was ended without its home and is complete now: in the place of the one
// that was made then, unless somebody signed that. Then it is another grading.
func (a *Archive) reenter(id string, r *debrief.Report, station string) error {
	d, err := a.Session(context.Background(), id)
	if err != nil {
		return err
	}
	if r == nil || len(d.Judging.Signed) == 0 {
		return a.enter(id, r)
	}
	n, err := folder.ReadNotes(a.path(id))
	if err != nil || n == nil {
		return errors.Join(err, &logbook.NotFound{ID: id})
	}
	_, err = a.Regrade(who.Who{Name: station, Role: who.RoleStudent}, id, logbook.Grading{
		At:       time.Now(),
		Maneuver: n.Maneuver,
		Standard: n.Standard,
		Aircraft: n.Aircraft,
		Report:   r,
	})
	return err
}
