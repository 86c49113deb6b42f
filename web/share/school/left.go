package school

import (
	"context"
	"errors"
	"math"
	"path/filepath"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/stream/record"
)

// awaitEvery is how often the sessions are looked at whose homes have no link.
const awaitEvery = time.Minute

// linked reports whether a station has a link.
func (s *Server) linked(name string) bool {
	st := s.station(name)
	if st == nil {
		return false
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	return st.served != nil
}

// endedAlone shows at a station that its session was ended without the home.
func (s *Server) endedAlone(name string, left *folder.Left) {
	if st := s.station(name); st != nil {
		st.mu.Lock()
		defer st.mu.Unlock()
		if st.served == nil {
			st.left = left.Words()
			st.rest(time.Now())
		}
	}
}

// returned notes that the sessions of a station are not waited for: its home is here.
func (s *Server) returned(station string) {
	s.awaited(func(w *archive.Awaited) error {
		if w.Station != station || w.Lost.IsZero() {
			return nil
		}
		w.Lost = time.Time{}
		return w.Note(s.opt.Book)
	})
}

// lose notes that the link to a station is lost, and up to where its session was seen.
func (s *Server) lose(st *station, now time.Time) {
	if s.linked(st.name) {
		return
	}
	st.mu.Lock()
	session, seen := st.session, st.received
	st.mu.Unlock()
	s.awaited(func(w *archive.Awaited) error {
		if w.Station != st.name {
			return nil
		}
		if w.Session == session {
			w.Seen = seen
		}
		w.Lost = now
		return w.Note(s.opt.Book)
	})
	s.await(now)
}

// await has the sessions ended whose homes did not return in time, or cannot.
func (s *Server) await(now time.Time) {
	s.awaited(func(w *archive.Awaited) error {
		if w.Left != nil || s.linked(w.Station) {
			return nil
		}
		if w.Lost.IsZero() || now.Before(w.Lost) { // the school was stopped at once, or its clock was set
			w.Lost = now
			return w.Note(s.opt.Book)
		}
		has, err := s.opt.Keys.HasKey(context.Background(), w.Station)
		if err != nil { // no reason to end anything
			return err
		}
		if has && now.Sub(w.Lost) < s.opt.Wait {
			return nil
		}
		select {
		case s.inbox.jobs <- job{station: w.Station, id: w.ID, left: &folder.Left{At: now, Revoked: !has}}:
		default: // it is looked at again
		}
		return nil
	})
}

// awaited does something with each session that is not complete. One that cannot be noted now is looked at again.
func (s *Server) awaited(do func(w *archive.Awaited) error) {
	if s.opt.Book.Waits() != nil {
		return
	}
	s.inbox.shared.Lock()
	defer s.inbox.shared.Unlock()
	all, err := s.opt.Book.Awaited()
	for i := range all {
		err = errors.Join(err, do(&all[i]))
	}
	if err != nil {
		s.opt.Log.Warn().Err(err).Msg("whether homes return cannot be noted")
	}
}

// leave ends a session without its home, unless that is back.
func (b *inbox) leave(ctx context.Context, j *job) error {
	dir := filepath.Join(b.book.Dir(), j.id)
	shared, ok, err := folder.ReadShared(dir)
	if err != nil || !ok || shared.Left != nil || !record.Unfinished(dir) || b.linked(j.station) {
		return err
	}
	notes, err := folder.ReadNotes(dir)
	if err != nil || notes == nil {
		return errors.Join(err, &logbook.NotFound{ID: j.id})
	}
	last, err := b.book.Recorded(ctx, j.id)
	if err != nil {
		return err
	}
	if last.IsZero() {
		last = notes.Began
	}
	j.ended = last
	if shared.Seen.After(last) {
		j.left.Missing = math.Round(shared.Seen.Sub(last).Seconds())
	}
	report, err := b.report(ctx, j, notes)
	if err != nil {
		return err
	}
	if back, err := b.leaveGraded(j, report); back || err != nil {
		return err
	}
	b.ended(j.station, j.left)
	b.log.Warn().Str("station", j.station).Str("session", j.id).Float64("missing", j.left.Missing).
		Bool("revoked", j.left.Revoked).Msg("the home did not return: the session is ended without it")
	return nil
}

// leaveGraded keeps what was graded of a session that is ended without its home; back says that the home came
// meanwhile.
func (b *inbox) leaveGraded(j *job, report *debrief.Report) (back bool, err error) {
	b.shared.Lock()
	defer b.shared.Unlock()
	if b.linked(j.station) {
		return true, nil
	}
	shared, _, err := folder.ReadShared(filepath.Join(b.book.Dir(), j.id))
	if err != nil {
		return false, err
	}
	return false, b.book.Leave(archive.Awaited{Shared: shared, ID: j.id}, report, j.ended, *j.left)
}
