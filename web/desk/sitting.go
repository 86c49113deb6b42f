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
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/record"
)

// A sitting is one session: the coach, the recording, and the entry in the logbook. It may outlive
// the seat: a simulator that was started again goes on with it from another port, a server that was
// started again from its recording. It is of one goroutine at a time.
type sitting struct {
	desk    *Desk
	name    string // of the station
	sender  string // of the datagrams, as far as it stays; see senderOf
	log     zerolog.Logger
	session *session.Session
	opening session.Opening
	out     *outlet

	id       string // "" before anything was flown, or while its folder cannot be made
	began    time.Time
	last     time.Time       // when the last datagram came
	kept     int             // legs in the logbook
	tried    time.Time       // when its folder could not be made
	missed   uint64          // datagrams that came since its first sample and before it had one
	choice   maneuver.Choice // what is flown
	recorder *record.Recorder
	before   []datagram // those before the first sample: the stream may say in them how to read it
	waiting  int        // bytes of these
	controls []string   // what changed since the last datagram
	rest     *rest      // the session before was ended by a touch, and nothing was flown since; else nil
}

// A datagram is one that came before the first sample.
type datagram struct {
	bytes    []byte
	from     netip.AddrPort
	received time.Time
	controls []string
}

// Limits on what is kept of a stream before its first sample.
const (
	mostBefore      = 1024
	mostBeforeBytes = 256 << 10
)

// sit makes the next session of a station; nothing is kept before its first sample.
func (d *Desk) sit(name string, known *Named, address netip.AddrPort, log zerolog.Logger) *sitting {
	plan, _ := d.plan(known.Maneuver, known.Standard, known.Aircraft) // New made sure of it
	auto := d.auto(known.Maneuver, known.Standard, known.Aircraft)
	s := &sitting{desk: d, name: name, sender: senderOf(known, address), log: log, out: &outlet{Output: d.cfg.Output, counts: &d.counts}}
	o := d.options(known.Station)
	o.Name, o.Address, o.Output, o.Auto = name, address.String(), s.out, auto
	o.Coach.Plan = plan
	choice := choiceOf(plan, auto)
	s.choice = choice
	s.opening = session.Opening{Program: d.cfg.Version, Station: name, Address: address.String(), Student: known.Student,
		Choice: choice, Settings: session.SettingsOf(&o, d.cards)}
	s.session = session.New(o)
	s.session.SetStudent(known.Student)
	s.tellRecording()
	return s
}

// choiceOf names what is flown.
func choiceOf(p *plan.Plan, auto []*plan.Plan) maneuver.Choice {
	c := session.ChoiceOf(p)
	if auto != nil {
		c.Maneuver = coach.AutoManeuver
	}
	return c
}

// options are those of every session.
func (d *Desk) options(st pipeline.Options) session.Options {
	return session.Options{Station: st, Coach: judge.Options{Deck: d.cfg.Deck, Voice: d.cfg.Voice}}
}

// took keeps one datagram that the session was fed; flown tells that it gave a sample.
func (s *sitting) took(b []byte, from netip.AddrPort, received time.Time, flown bool) {
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

// hold keeps a datagram that came before the first sample, the latest of many.
func (s *sitting) hold(d datagram) {
	if !s.began.IsZero() { // the folder cannot be made: what comes now is lost, what changes is not
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

// tooMuch tells whether more is held than need be.
func (s *sitting) tooMuch() bool {
	if n := len(s.before); s.rest != nil && n > 1 {
		return n > mostRestCount || s.waiting > mostRestBytes || s.before[n-1].received.Sub(s.before[0].received).Abs() > mostRest
	}
	return len(s.before) > mostBefore || s.waiting > mostBeforeBytes && len(s.before) > 1
}

// begin gives the session its name, its folder and its recording. Where that fails, it is tried
// again every second.
func (s *sitting) begin(received time.Time) {
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
			s.log.Error().Err(err).Msg("coaching goes on, but this session is not kept until that is mended")
		}
		s.tried = received
		s.session.SetRecording(record.Failing, record.Words(err))
		return
	}
	if !first {
		s.log.Info().Str("session", id).Msg("the session is kept from here on")
	}
	s.id, s.opening.Session = id, id
	s.identify(received)
	if err := record.Mark(s.dir()); err != nil {
		s.log.Error().Err(err).Msg("a session that is interrupted now will not be gone on with")
	}
	if w := s.desk.cfg.Writer; w != nil {
		w.Begin(s.entry())
	}
	s.session.SetID(id)
	s.record()
	s.tellRecording()
	if s.missed > 0 {
		s.controls = append(s.controls, session.LostComment(s.missed))
	}
	if s.recorder != nil {
		for _, d := range s.before {
			s.recorder.Add(d.bytes, d.from, s.desk.receiver(d.from), d.received, d.controls...)
		}
	}
	s.session.Publish(&message.Session{ID: id, State: message.SessionBegan})
}

// dir is the session's folder.
func (s *sitting) dir() string { return filepath.Join(s.desk.cfg.Book.Dir(), s.id) }

// record begins to record, or goes on.
func (s *sitting) record() {
	if s.desk.cfg.Recording == nil {
		return
	}
	log, opening := s.log.With().Str("session", s.id).Logger(), s.opening // of its own: the recorder has another goroutine
	s.recorder = record.Begin(s.dir(), record.Options{
		Program: "halfturn " + s.desk.cfg.Version,
		Station: s.name,
		Section: func(part int) string { opening.Part = part; return opening.Comment() },
		Lost:    func(n uint64) string { return session.LostComment(n) },
		Rotate:  s.desk.cfg.Recording.Rotate,
		Open:    s.desk.cfg.Recording.Open,
		Closed:  s.desk.closed,
		Changed: func(st record.Status) {
			if st.State == record.Failing {
				log.Error().Str("why", st.Words).Msg("nothing is being recorded; coaching goes on")
				return
			}
			log.Warn().Uint64("lost", st.Lost).Msg("recording goes on")
		},
	})
}

// tellRecording says how the recording goes on the panel.
func (s *sitting) tellRecording() {
	switch {
	case s.desk.cfg.Recording == nil:
		s.session.SetRecording("off", "")
	case s.rest != nil && s.desk.cfg.Book.Waits() == nil:
		s.session.SetRecording(message.Resting, "")
	case s.recorder != nil:
		st := s.recorder.Status()
		s.session.SetRecording(st.State, st.Words)
	case s.began.IsZero():
		if why := s.desk.cfg.Book.Waits(); why != nil {
			s.session.SetRecording(record.Failing, record.Words(why))
			return
		}
		s.session.SetRecording(record.On, "")
	}
}

// control notes what changes before the next datagram.
func (s *sitting) control(comment string) {
	if len(s.controls) < mostBefore {
		s.controls = append(s.controls, comment)
	}
}

// choose changes what is flown.
func (s *sitting) choose(p *plan.Plan, auto []*plan.Plan) {
	s.choice = choiceOf(p, auto)
	s.session.Choose(p, auto)
}

// setStudent says who flies.
func (s *sitting) setStudent(name string) {
	s.opening.Student = name
	s.session.SetStudent(name)
	if w := s.desk.cfg.Writer; w != nil && s.id != "" {
		w.SetStudent(who.Owner(), s.id, name)
	}
}

// end closes the session and keeps it; nil when nothing was flown. Over tells that it is not to be
// gone on with.
func (s *sitting) end(over bool) *debrief.Report {
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
		if err == nil { // else the next start has it to do
			err = record.Finish(s.dir())
		}
		s.desk.tidy()
	}
	if err == nil {
		s.log.Info().Str("summary", path).Int("legs", s.session.Legs()).Msg("session kept")
	}
	return report
}

// keep hands what was flown so far to the logbook, and returns it.
func (s *sitting) keep(r debrief.StationReport) *debrief.Report {
	report := debrief.New()
	report.Session = &debrief.SessionDates{ID: s.id, Began: s.began.UTC().Format(time.RFC3339), Ended: s.last.UTC().Format(time.RFC3339)}
	report.Files = append(report.Files, debrief.FileReport{File: "live", Stations: []debrief.StationReport{r}})
	if w := s.desk.cfg.Writer; w != nil && s.id != "" {
		w.Keep(s.id, report)
	}
	return report
}

// entry is the session as the logbook enters it.
func (s *sitting) entry() logbook.Entry {
	p := s.session.Coaching()
	return logbook.Entry{ID: s.id, Station: s.name, Student: logbook.Student{Name: s.opening.Student}, Began: s.began, Maneuver: p.Card.Name, Standard: p.Card.Standard,
		Aircraft: p.Aircraft.Name, Cards: logbook.CardsOf(s.desk.cfg.Library)}
}
