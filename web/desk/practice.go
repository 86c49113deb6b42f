package desk

import (
	"net/netip"
	"path/filepath"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/judge"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/record"
)

// A practice is one practice session: the coach, the recording and the entry in the logbook. It may outlive the
// station: a restarted simulator continues it from another port, and a restarted server from its recording. One
// goroutine at a
// time uses it.
type practice struct {
	desk    *Desk
	name    string // of the station
	sender  string // the lasting part of the sender's address; see senderOf
	log     zerolog.Logger
	session *session.Session
	opening playback.Opening
	out     *outlet

	id       string // "" before the first sample, and while its folder cannot be made
	began    time.Time
	last     time.Time       // when the last datagram came
	kept     int             // legs in the logbook
	tried    time.Time       // when its folder last could not be made
	missed   uint64          // datagrams after its first sample that came before it had a folder
	choice   maneuver.Choice // what is flown
	recorder *record.Recorder
	before   []datagram // those before the first sample, which may describe the format
	waiting  int        // bytes in before
	controls []string   // comments to record with the next datagram
	rest     *rest      // not nil after the user ended the previous session, until this one begins
}

// A datagram is one that is held.
type datagram struct {
	bytes    []byte
	from     netip.AddrPort
	received time.Time
	controls []string
}

// Limits on what is held of a stream before its first sample.
const (
	mostBefore      = 1024
	mostBeforeBytes = 256 << 10
)

// practice makes the next session of a station; nothing is recorded before its first sample.
func (d *Desk) practice(name string, known *Named, address netip.AddrPort, log zerolog.Logger) *practice {
	plan, _ := d.plan(known.Maneuver, known.Standard, known.Aircraft) // New and lastChosen have checked it
	auto := d.auto(known.Maneuver, known.Standard, known.Aircraft)
	s := &practice{
		desk:   d,
		name:   name,
		sender: senderOf(known, address),
		log:    log,
		out:    &outlet{Output: d.cfg.Output, counts: &d.counts},
	}
	o := d.options(known.Station)
	o.Name, o.Address, o.Output, o.Auto = name, address.String(), s.out, auto
	o.Coach.Plan = plan
	choice := choiceOf(plan, auto)
	s.choice = choice
	s.opening = playback.Opening{
		Program:  d.cfg.Version,
		Station:  name,
		Address:  address.String(),
		Student:  known.Student,
		Choice:   choice,
		Settings: playback.SettingsOf(&o, d.cards),
	}
	s.session = session.New(o)
	s.session.SetStudent(known.Student)
	s.tellRecording()
	return s
}

// choiceOf names the cards of plans.
func choiceOf(p *plan.Plan, auto []*plan.Plan) maneuver.Choice {
	c := p.Choice()
	if auto != nil {
		c.Maneuver = coach.AutoManeuver
	}
	return c
}

// options are those common to all sessions.
func (d *Desk) options(st pipeline.Options) session.Options {
	return session.Options{Station: st, Coach: judge.Options{Deck: d.cfg.Deck, Voice: d.cfg.Voice}}
}

// took records a datagram that the session was fed; flown tells whether it gave a sample.
func (s *practice) took(b []byte, from netip.AddrPort, received time.Time, flown bool) {
	s.last = received
	if s.id == "" && s.rest == nil && (flown || !s.began.IsZero()) {
		s.begin(received)
	}
	controls := s.controls
	s.controls = nil
	switch {
	case s.recorder != nil:
		s.recorder.Add(b, from, s.desk.receiver(from), received, controls...)
	case s.id == "":
		s.hold(datagram{append([]byte{}, b...), from, received, controls})
	}
	if n := s.session.Legs(); n != s.kept && s.id != "" {
		s.kept = n
		if s.recorder != nil {
			s.recorder.Flush()
		}
		s.keep(s.session.SoFar())
	}
}

// hold keeps a datagram that came before the first sample; the oldest are dropped.
func (s *practice) hold(d datagram) {
	if !s.began.IsZero() { // the folder cannot be made: datagrams are lost, comments are not
		s.missed++
		s.controls = d.controls
		return
	}
	s.before = append(s.before, d)
	s.waiting += len(d.bytes)
	for s.tooMuch() {
		s.waiting -= len(s.before[0].bytes)
		s.before[1].controls = append(s.before[0].controls, s.before[1].controls...)
		s.before = s.before[1:]
	}
}

// tooMuch tells whether more is held than the limits allow.
func (s *practice) tooMuch() bool {
	if n := len(s.before); s.rest != nil && n > 1 {
		return n > mostRestCount || s.waiting > mostRestBytes ||
			s.before[n-1].received.Sub(s.before[0].received).Abs() > mostRest
	}
	return len(s.before) > mostBefore || s.waiting > mostBeforeBytes && len(s.before) > 1
}

// begin gives the session its id, its folder and its recording. If that fails, it is tried again every second.
func (s *practice) begin(received time.Time) {
	if !s.tried.IsZero() && received.Sub(s.tried).Abs() < time.Second {
		return
	}
	first := s.began.IsZero()
	if first {
		s.began = received
	}
	id, err := s.desk.cfg.Book.NewID(s.began, s.name)
	if err != nil {
		if first {
			s.log.Error().Err(err).Msg("coaching goes on, but this session is not kept until that is fixed")
		}
		s.tried = received
		s.session.SetRecording(record.Failing, record.Words(err))
		return
	}
	if !first {
		s.log.Info().Str("session", id).Msg("the session is kept from now on")
	}
	s.id, s.opening.Session = id, id
	s.identify(received)
	if err := record.Mark(s.dir()); err != nil {
		s.log.Error().Err(err).Msg("if this session is interrupted, it cannot be resumed")
	}
	if w := s.desk.cfg.Writer; w != nil {
		w.Begin(s.entry())
	}
	s.session.SetID(id)
	s.record()
	s.tellRecording()
	if s.missed > 0 {
		s.controls = append(s.controls, playback.LostComment(s.missed))
	}
	if s.recorder != nil {
		for _, d := range s.before {
			s.recorder.Add(d.bytes, d.from, s.desk.receiver(d.from), d.received, d.controls...)
		}
	}
	s.session.Publish(&message.Session{ID: id, State: message.SessionBegan})
}

// dir is the session's folder.
func (s *practice) dir() string { return filepath.Join(s.desk.cfg.Book.Dir(), s.id) }

// record starts or continues the recording.
func (s *practice) record() {
	if s.desk.cfg.Recording == nil {
		return
	}
	log, opening := s.log.With().Str("session", s.id).Logger(), s.opening // a copy, for the recorder's goroutine
	s.recorder = record.Begin(s.dir(), record.Options{
		Program: "halfturn " + s.desk.cfg.Version,
		Station: s.name,
		Section: func(part int) string { opening.Part = part; return opening.Comment() },
		Lost:    func(n uint64) string { return playback.LostComment(n) },
		Rotate:  s.desk.cfg.Recording.Rotate,
		Open:    s.desk.cfg.Recording.Open,
		Closed:  s.desk.closed,
		Changed: func(st record.Status) {
			if st.State == record.Failing {
				log.Error().Stringer("why", st.Words).Msg("nothing is being recorded; coaching goes on")
				return
			}
			log.Warn().Uint64("lost", st.Lost).Msg("recording goes on")
		},
	})
}

// tellRecording shows the state of the recording on the panel.
func (s *practice) tellRecording() {
	switch {
	case s.desk.cfg.Recording == nil:
		s.session.SetRecording("off", phrase.Phrase{})
	case s.rest != nil && s.desk.cfg.Book.Waits() == nil:
		s.session.SetRecording(message.Resting, phrase.Phrase{})
	case s.recorder != nil:
		st := s.recorder.Status()
		s.session.SetRecording(st.State, st.Words)
	case s.began.IsZero():
		if why := s.desk.cfg.Book.Waits(); why != nil {
			s.session.SetRecording(record.Failing, record.Words(why))
			return
		}
		s.session.SetRecording(record.On, phrase.Phrase{})
	}
}

// control notes a comment for the next datagram.
func (s *practice) control(comment string) {
	if len(s.controls) < mostBefore {
		s.controls = append(s.controls, comment)
	}
}

// choose changes what is flown.
func (s *practice) choose(p *plan.Plan, auto []*plan.Plan) {
	s.choice = choiceOf(p, auto)
	s.session.Choose(p, auto)
}

// setStudent sets who flies.
func (s *practice) setStudent(name string) {
	s.opening.Student = name
	s.session.SetStudent(name)
	if w := s.desk.cfg.Writer; w != nil && s.id != "" {
		w.SetStudent(who.Owner(), s.id, name)
	}
}

// end ends the session and keeps it; nil when nothing was flown. Over tells that it is not to be resumed.
func (s *practice) end(over bool) *debrief.Report {
	s.session.End(phrase.SessionEnded.Of())
	defer s.release()
	if s.began.IsZero() {
		return nil
	}
	if s.recorder != nil {
		if err := s.recorder.Close(s.controls...); err != nil {
			s.log.Error().Err(err).Msg("the end of the session is not recorded")
		}
		if st := s.recorder.Status(); st.Lost > 0 {
			s.log.Warn().Uint64("lost", st.Lost).Uint64("recorded", st.Written).Msg("not all datagrams were recorded")
		}
	}
	s.session.Publish(&message.Session{ID: s.id, State: message.SessionEnded, Legs: s.session.Legs()})
	report := s.keep(s.session.Report())
	if s.id == "" {
		s.log.Error().Msg("the session is lost: its folder could not be made")
		return report
	}
	path, err := s.desk.cfg.Book.Save(s.id, report)
	if err != nil {
		s.log.Error().Err(err).Msg("the grades of the session are not in its folder; its recording gives them again")
	}
	if over {
		if w := s.desk.cfg.Writer; w != nil {
			w.End(s.id, s.last)
		}
		if err == nil { // otherwise the next start does it
			err = record.Finish(s.dir())
		}
		s.desk.tidy()
	}
	if err == nil {
		s.log.Info().Str("summary", path).Int("legs", s.session.Legs()).Msg("session kept")
	}
	return report
}

// keep enters a report in the logbook and returns it.
func (s *practice) keep(r debrief.StationReport) *debrief.Report {
	report := debrief.New()
	report.Session = &debrief.SessionDates{
		ID:    s.id,
		Began: s.began.UTC().Format(time.RFC3339),
		Ended: s.last.UTC().Format(time.RFC3339),
	}
	report.Files = append(report.Files, debrief.FileReport{File: "live", Stations: []debrief.StationReport{r}})
	if w := s.desk.cfg.Writer; w != nil && s.id != "" {
		w.Keep(s.id, report)
	}
	return report
}

// entry is the session as it is entered in the logbook.
func (s *practice) entry() logbook.Entry {
	p := s.session.Coaching()
	return logbook.Entry{
		ID:       s.id,
		Station:  s.name,
		Student:  logbook.Student{Name: s.opening.Student},
		Began:    s.began,
		Maneuver: p.Card.Name,
		Standard: p.Card.Standard,
		Aircraft: p.Aircraft.Name,
		Cards:    logbook.CardsOf(s.desk.cfg.Library),
	}
}
