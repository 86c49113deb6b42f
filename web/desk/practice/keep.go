package practice

import (
	"time"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
)

// end ends the session and returns what was flown; nil when nothing was, and when a fault makes that unknown. It does
// not wait for the disk; keepOnDisk does. A fault in one part leaves out that part alone.
func (s *live) end() (report *debrief.Report) {
	reason := phrase.SessionEnded
	if s.failed {
		reason = phrase.FaultEnded
	}
	if !s.contain(func() { s.session.End(reason.Of()) }) {
		s.owner.Fail()
		s.contain(s.session.Leave)
	}
	if s.began.IsZero() {
		return nil
	}
	s.contain(func() {
		s.session.Publish(&message.Session{ID: s.id, State: message.SessionEnded, Legs: s.session.Legs()})
	})
	if s.common.Tap != nil {
		s.contain(func() { s.common.Tap.End(s.id) })
	}
	s.contain(func() { report = s.keep(s.session.Report()) })
	return report
}

// contain runs a part of the end of a session, and reports whether it was done.
func (s *live) contain(part func()) bool { return s.common.Faults.Run("station", s.name, part) }

// keepOnDisk completes the recording and the folder of a session that ended; over tells that it is not to be resumed.
func (s *live) keepOnDisk(report *debrief.Report, over bool) {
	if s.recorder != nil {
		if err := s.recorder.Close(s.controls...); err != nil {
			s.log.Error().Err(err).Msg("the end of the session is not recorded")
		}
		if st := s.recorder.Status(); st.Lost > 0 {
			s.log.Warn().Uint64("lost", st.Lost).Uint64("recorded", st.Written).Msg("not all datagrams were recorded")
		}
	}
	if s.id == "" {
		s.log.Error().Msg("the session is lost: nothing could be kept")
		return
	}
	path, err := "", error(nil)
	if report != nil {
		path, err = s.common.Book.Save(s.id, report)
	}
	if err != nil {
		s.log.Error().Err(err).Msg("the grades of the session are not in its folder; its recording gives them again")
	}
	if over || s.failed { // what failed may fail again when it is played at the next start
		if w := s.common.Writer; w != nil {
			w.End(s.id, s.last)
		}
		if err == nil { // otherwise the next start does it
			err = s.common.over(s.id)
		}
		s.common.Over()
	}
	if err == nil {
		s.log.Info().Str("summary", path).Int("legs", s.session.Legs()).Msg("session kept")
	}
}

// keep enters a report in the logbook and returns it.
func (s *live) keep(r debrief.StationReport) *debrief.Report {
	report := reportOf(s.dates(), r)
	if w := s.common.Writer; w != nil && s.id != "" {
		w.Keep(s.id, report)
	}
	return report
}

// keepLater enters in the logbook what was flown so far; its report is made by the goroutine that enters it.
func (s *live) keepLater(f *session.Flown) {
	if w := s.common.Writer; w != nil {
		dates := s.dates()
		w.KeepLater(s.id, func() *debrief.Report { return reportOf(dates, f.Report()) })
	}
}

// dates are those of the session up to now.
func (s *live) dates() debrief.SessionDates {
	return debrief.SessionDates{
		ID:    s.id,
		Began: s.began.UTC().Format(time.RFC3339),
		Ended: s.last.UTC().Format(time.RFC3339),
	}
}

// reportOf is the report of a session with one station.
func reportOf(dates debrief.SessionDates, r debrief.StationReport) *debrief.Report {
	report := debrief.New()
	report.Session = &dates
	report.Files = append(report.Files, debrief.FileReport{File: "live", Stations: []debrief.StationReport{r}})
	return report
}

// entry is the session as it is entered in the logbook.
func (s *live) entry() logbook.Entry {
	p := s.session.Coaching()
	return logbook.Entry{
		ID:       s.id,
		Station:  s.name,
		Student:  logbook.Student{Name: s.opening.Student},
		Began:    s.began,
		Maneuver: p.Card.Name,
		Standard: p.Card.Standard,
		Aircraft: p.Aircraft.Name,
		Cards:    s.cards.Kept(),
	}
}
