package desk

import (
	"context"
	"errors"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/record"
)

// idle is how long a session may be interrupted.
func (d *Desk) idle() time.Duration {
	if d.cfg.Idle > 0 {
		return d.cfg.Idle
	}
	return time.Minute
}

// resume looks for unfinished sessions. Their recordings are repaired and played. A session that was interrupted only
// recently then waits for its station; the others are ended and kept.
func (d *Desk) resume(ctx context.Context, now time.Time) {
	entries, err := os.ReadDir(d.cfg.Book.Dir())
	if err != nil {
		if d.cfg.Book.Waits() != nil && errors.Is(err, os.ErrNotExist) {
			return // nothing was ever kept here
		}
		d.cfg.Log.Error().Err(err).Msg("sessions of the last run cannot be looked for")
		return
	}
	for _, e := range entries {
		if ctx.Err() == nil && e.IsDir() && folder.IsID(e.Name()) &&
			record.Unfinished(filepath.Join(d.cfg.Book.Dir(), e.Name())) {
			d.resumeOne(e.Name(), now)
		}
	}
}

func (d *Desk) resumeOne(id string, now time.Time) {
	dir := filepath.Join(d.cfg.Book.Dir(), id)
	log := d.cfg.Log.With().Str("session", id).Logger()
	cut, err := record.Repair(dir)
	for file, n := range cut {
		log.Warn().
			Str("file", file).
			Int64("bytes", n).
			Msg("the end of the recording was torn and was cut off; what comes before is whole")
	}
	if err != nil {
		log.Error().Err(err).Msg("the recording cannot be repaired")
	}
	s, err := d.replayed(id, now)
	if err != nil {
		log.Warn().
			Err(err).
			Msg("the session was interrupted and is kept as it is; it cannot be graded from its recording")
		if w := d.cfg.Writer; w != nil {
			w.End(id, changed(dir, now))
		}
		if err := record.Finish(dir); err != nil {
			log.Warn().Err(err).Msg("the session is still marked as not over")
		}
		return
	}
	if s == nil {
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.paused[s.name] = s
	log.Info().Str("station", s.name).Int("legs", s.session.Legs()).Msg("the session waits for its station to go on")
}

// changed is when a folder was last written to.
func changed(dir string, otherwise time.Time) time.Time {
	at := time.Time{}
	entries, _ := os.ReadDir(dir) // nothing is known of an unreadable folder
	for _, e := range entries {
		if info, err := e.Info(); err == nil && info.ModTime().After(at) {
			at = info.ModTime()
		}
	}
	if at.IsZero() {
		return otherwise
	}
	return at
}

// errNothing tells that there is nothing to play.
var errNothing = errors.New("nothing of it was recorded")

// errIncomplete protects legs that were graded while nothing could be recorded.
var errIncomplete = errors.New("its recording does not hold all that was flown; its grades stay as they are")

// entered is how many finished legs of a session are in the logbook. Other outcomes cannot be compared: stopping the
// server breaks off the leg under way, and resuming the session does not.
func (d *Desk) entered(id string) (n int) {
	known, err := d.cfg.Book.Report(context.Background(), id, 1)
	if err != nil { // the logbook does not have it
		return 0
	}
	for i := range known.Files {
		for j := range known.Files[i].Stations {
			n += finished(&known.Files[i].Stations[j])
		}
	}
	return n
}

// finished counts the finished legs of a report.
func finished(r *debrief.StationReport) (n int) {
	for i := range r.Series {
		for j := range r.Series[i].Legs {
			if r.Series[i].Legs[j].Outcome == coach.Finished {
				n++
			}
		}
	}
	return n
}

// errOtherCards protects grades that cannot be reproduced.
var errOtherCards = errors.New(
	"it was graded by other cards or another version of Halfturn; its grades stay as they are",
)

// opening reads how the session of a folder was followed, and lists the parts of its recording. The error tells why it
// cannot be graded again.
func (d *Desk) opening(dir string) (parts []string, o playback.Opening, err error) {
	if parts, err = record.Parts(dir); err != nil {
		return nil, o, err
	}
	if len(parts) == 0 {
		return nil, o, errNothing
	}
	text, err := record.Heading(context.Background(), parts[0])
	o, ours, wrong := playback.ReadOpening(text)
	switch {
	case wrong != nil:
		return nil, o, wrong
	case !ours:
		return nil, o, errors.Join(errors.New("its recording does not say how it was followed"), err)
	case o.Settings.Cards != d.cards || o.Program != d.cfg.Version:
		return nil, o, errOtherCards
	}
	return parts, o, nil
}

// replayed plays the recording of an interrupted session. It returns the session if it can continue, and otherwise ends
// and keeps it.
func (d *Desk) replayed(id string, now time.Time) (*practice, error) {
	dir := filepath.Join(d.cfg.Book.Dir(), id)
	parts, opening, err := d.opening(dir)
	if err != nil {
		return nil, err
	}
	address, _ := netip.ParseAddrPort(opening.Address) // an invalid one is like an unknown sender
	known := d.named(address)
	base := d.options(known.Station)
	goesOn := playback.SettingsOf(&base, d.cards) == opening.Settings && now.Sub(changed(dir, now)).Abs() <= d.idle()
	s := &practice{
		desk:    d,
		name:    opening.Station,
		id:      id,
		opening: opening,
		choice:  opening.Choice,
		out:     &outlet{Output: d.cfg.Output, counts: &d.counts, past: true},
		log:     d.cfg.Log.With().Str("station", opening.Station).Logger(),
	}
	o, err := opening.Options(base, d.plansFor)
	if err != nil {
		return nil, err
	}
	o.Name, o.Address = opening.Station, opening.Address
	if goesOn {
		o.Output = s.out
	}
	s.sender = senderOf(&known, address)
	s.session = session.New(o)
	s.session.SetID(id)
	s.session.SetStudent(opening.Student)
	lost := s.play(parts)
	played := s.session.SoFar()
	switch {
	case s.last.IsZero():
		return nil, errNothing
	case lost > 0 || d.entered(id) > finished(&played):
		s.session.End(phrase.SessionEnded.Of())
		return nil, errIncomplete
	}
	if goesOn && now.Sub(s.last).Abs() <= d.idle() {
		s.out.past = false
		s.reserve(now)
		s.tellRecording()
		s.session.Tick(Seconds(now))
		s.kept = s.session.Legs()
		s.keep(s.session.SoFar())
		return s, nil
	}
	s.end(true)
	return nil, nil
}

// play plays a recording into the session, and returns how many datagrams the recording says are missing.
func (s *practice) play(parts []string) (lost uint64) {
	play := playback.New(s.session, func(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
		s.choice = c
		return s.desk.plansFor(c)
	})
	entry := s.entry() // with the choices at the beginning
	r := record.Read(parts)
	defer r.Close()
	for {
		d, err := r.Next()
		if err != nil {
			if !errors.Is(err, io.EOF) {
				s.log.Warn().Err(err).Msg("the recording is damaged; the session is taken as far as it can be read")
			}
			break
		}
		result, err := play.Feed(d.Payload, d.Seconds(), d.Comments)
		if err != nil {
			s.log.Warn().Err(err).Msg("the session is played without that")
		}
		s.last = d.Received
		flown := result.Outcome == pipeline.Accepted || result.Outcome == pipeline.Jumped
		switch {
		case s.began.IsZero() && flown:
			s.began = d.Received
			entry = s.entry()
		case s.began.IsZero():
			s.hold(datagram{append([]byte{}, d.Payload...), d.Source, d.Received, nil})
		}
	}
	if err := play.Apply(r.Rest()); err != nil {
		s.log.Warn().Err(err).Msg("the session is played without that")
	}
	if play.Student != "" {
		s.opening.Student = play.Student
	}
	if s.last.IsZero() { // no datagrams
		return 0
	}
	if s.began.IsZero() {
		s.began = s.last
	}
	entry.Began, entry.Student.Name = s.began, s.opening.Student
	if w := s.desk.cfg.Writer; w != nil {
		w.Begin(entry) // the last run may have ended before this was done
	}
	return play.Lost
}

// plansFor finds the plans of a choice, as playback.Plans.
func (d *Desk) plansFor(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	p, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return nil, nil, err
	}
	return p, d.auto(c.Maneuver, c.Standard, c.Aircraft), nil
}

// expire ends paused sessions whose station did not come back in time.
func (d *Desk) expire(now time.Time) {
	d.mu.Lock()
	var over []*practice
	for name, s := range d.paused {
		s.session.Tick(Seconds(now))
		if now.Sub(s.last).Abs() > d.idle() {
			over = append(over, s)
			delete(d.paused, name)
		}
	}
	d.mu.Unlock()
	for _, s := range over {
		if report := s.end(true); report != nil {
			d.note(s.name, &report.Files[0].Stations[0])
			if d.cfg.Ended != nil {
				d.cfg.Ended(report)
			}
		}
	}
}
