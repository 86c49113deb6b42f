package archive

import (
	"errors"
	"slices"
	"strconv"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// A Received is a session that comes, or came, from another Halfturn.
type Received struct {
	ID   string // here
	Done bool   // it is complete, graded and entered; one that was ended without its home is not
}

// Received finds a session of another Halfturn, by the station whose key it came with and its id there; false when
// nothing of it is here.
func (a *Archive) Received(station, session string) (Received, bool) {
	if !folder.IsID(session) {
		return Received{}, false
	}
	for n := 1; n < mostAlike; n++ {
		id := numbered(session, n)
		if err := a.bring(id, false); errors.Is(err, depot.ErrAway) {
			a.options.Tell(err.Error()) // it is received again, which costs time and doubles nothing
		}
		s, ok, err := folder.ReadShared(a.path(id))
		if ok && s.Station == station && s.Session == session {
			return Received{ID: id, Done: !record.Unfinished(a.path(id))}, true
		}
		if err == nil && !a.folders.Taken(id) && !a.shared.has(id) {
			return Received{}, false
		}
	}
	return Received{}, false
}

// mostAlike is how many sessions of one id may come from different stations.
const mostAlike = 1000

// numbered is the n-th name for an id, from 1, as underway numbers names.
func numbered(id string, n int) string {
	if n == 1 {
		return id
	}
	return id + "_" + strconv.Itoa(n)
}

// Receive makes the folder of a session that begins to come from another Halfturn, and enters it as one that is being
// flown at the station. It keeps the id that it has there, with a number where another session has it here.
func (a *Archive) Receive(station, session string, e logbook.Entry) (Received, error) {
	if !folder.IsID(session) {
		return Received{}, &logbook.NotFound{ID: session}
	}
	if why := a.Waits(); why != nil {
		return Received{}, why
	}
	known, ok := a.Received(station, session)
	if !ok {
		id, err := a.folders.Claim(session)
		if err != nil {
			return known, err
		}
		known = Received{ID: id}
	}
	if known.Done {
		return known, nil
	}
	if err := a.folders.Make(known.ID); err != nil {
		return known, err
	}
	if !ok {
		shared := folder.Shared{Station: station, Session: session}
		if err := shared.Write(a.own(known.ID)); err != nil {
			return known, err
		}
	}
	e.ID, e.Station = known.ID, station
	return known, a.Begin(e)
}

// Complete enters a session that was received whole: its grades, and when it ended.
func (a *Archive) Complete(id string, r *debrief.Report, e logbook.Entry) error {
	if err := a.stillOurs(id); err != nil {
		return err
	}
	dir := a.own(id)
	shared, ok, err := folder.ReadShared(dir)
	if err != nil {
		return err
	}
	if shared.Left == nil {
		err = a.enter(id, r)
	} else {
		err = a.reenter(id, r, e.Station)
	}
	if err == nil {
		err = a.End(id, e.Ended)
	}
	if err == nil && ok {
		err = folder.Shared{Station: shared.Station, Session: shared.Session}.Write(dir)
	}
	if err != nil {
		return err
	}
	return a.folders.Finish(id)
}

// fromHome are the kinds of acts that are taken from another Halfturn: what a pilot says of a flight. To keep, overrule
// or sign is for people here.
var fromHome = []string{logbook.ActRemark, logbook.ActStudent, logbook.ActRate}

// TakeActs adds acts of another Halfturn that are not here yet. Whoever they were by there is a student here.
func (a *Archive) TakeActs(id, station string, acts []logbook.Act) error {
	return a.act(id, func(_ logbook.Book, f *folder.Edit) error {
		for i := range acts {
			act := acts[i]
			same := func(b logbook.Act) bool { return b.ID == act.ID }
			if !slices.Contains(fromHome, act.Kind) || slices.ContainsFunc(f.Acts, same) ||
				slices.ContainsFunc(f.Added, same) {
				continue
			}
			act.About.Session = f.Notes.Key
			act.By = who.Who{Name: act.By.Name, Role: who.RoleStudent}
			if act.By.Name == who.Owner().Name || act.By.Name == "" {
				act.By.Name = station
			}
			f.Add(act)
		}
		return nil
	})
}
