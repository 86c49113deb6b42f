package practice

import (
	"net/netip"
	"sync/atomic"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web/desk/identity"
	"halfturn/web/desk/menu"
	"halfturn/web/desk/outlet"
)

// A live is one practice session while it is flown: the coach, the recording, and the entry in the logbook.
type live struct {
	common  *Common
	owner   *Practice
	name    string // of the station
	place   string // the lasting part of the sender's address
	log     zerolog.Logger
	session *session.Session
	cards   *menu.Menu // by which it is flown, though they may be read again meanwhile
	opening playback.Opening
	out     *outlet.Outlet

	id       string    // "" before the first sample, and while nothing can be kept
	origin   time.Time // when the first datagram of the recording came
	began    time.Time
	last     time.Time       // when the last datagram came
	kept     int             // legs in the logbook
	tried    time.Time       // when it last could not begin
	missed   uint64          // datagrams after its first sample that came before it had an id
	choice   maneuver.Choice // what is flown
	recorder *record.Recorder
	before   []datagram  // those before the first sample, which may describe the format
	waiting  int         // bytes in before
	controls []string    // comments to record with the next datagram
	missing  Loss        // before the next datagram; controls say so too
	failed   bool        // a fault in the program ended it
	shadow   atomic.Bool // another machine flies it
	rest     *rest       // not nil after the user ended the previous session, until this one begins
}

// A datagram is one that is held.
type datagram struct {
	bytes    []byte
	from     netip.AddrPort
	received time.Time
	controls []string
	missing  Loss // before it; controls say so too
}

// Limits on what is held of a stream before its first sample.
const (
	mostBefore      = 1024
	mostBeforeBytes = 256 << 10
)

// newLive makes the next session of a station; nothing is recorded before its first sample.
func newLive(
	c *Common, owner *Practice, station string, sender *identity.Sender, address netip.AddrPort, log zerolog.Logger,
) *live {
	cards := c.Menu()
	plan, auto, err := cards.Plans(sender.Choice)
	if err != nil {
		panic("practice: " + err.Error()) // the desk has checked what is configured, and the directory what was chosen
	}
	s := &live{
		common: c,
		owner:  owner,
		name:   station,
		place:  sender.Place(address),
		log:    log,
		cards:  cards,
		choice: menu.ChoiceOf(plan, auto),
		out:    &outlet.Outlet{Output: c.Output, Counts: c.Counts},
	}
	o := c.options(sender.Station, cards)
	o.Name, o.Address, o.Output = station, address.String(), s.out
	o.Coach.Plan, o.Auto, o.Demonstration = plan, auto, sender.Demonstration
	s.opening = playback.Opening{
		Program:  c.Version,
		Station:  station,
		Address:  address.String(),
		Student:  sender.Student,
		Choice:   s.choice,
		Settings: playback.SettingsOf(&o, cards.Hash()),
	}
	s.session = session.New(o)
	s.session.SetStudent(sender.Student)
	s.tellRecording()
	return s
}

// identify returns the id of the session's station.
func (s *live) identify(now time.Time) string {
	if s.opening.StationID == "" {
		s.opening.StationID = s.common.Directory.Hold(s.owner, s.name, s.place, now)
	}
	return s.opening.StationID
}

// took records a datagram that the session was fed; flown tells whether it gave a sample.
func (s *live) took(b []byte, from netip.AddrPort, received time.Time, flown bool) {
	s.last = received
	if s.owner.sender.Demonstration { // nothing of it is kept
		return
	}
	if s.id == "" && s.rest == nil && (flown || !s.began.IsZero()) {
		s.begin(received)
	}
	controls, missing := s.controls, s.missing
	s.controls, s.missing = nil, Loss{}
	switch {
	case s.recorder != nil:
		s.add(&datagram{b, from, received, controls, missing})
	case s.id == "":
		s.hold(datagram{append([]byte{}, b...), from, received, controls, missing})
	}
	if n := s.session.Legs(); n != s.kept && s.id != "" {
		s.kept = n
		if s.recorder != nil {
			s.recorder.Flush()
		}
		s.keepLater(s.session.Flown())
	}
}

// hold keeps a datagram that came before the first sample; the oldest are dropped.
func (s *live) hold(d datagram) {
	if !s.began.IsZero() { // nothing can be kept: datagrams are lost, comments are not
		s.missed++
		s.controls, s.missing = d.controls, d.missing
		return
	}
	s.before = append(s.before, d)
	s.waiting += len(d.bytes)
	for s.tooMuch() {
		s.waiting -= len(s.before[0].bytes)
		s.before[1].controls = append(s.before[0].controls, s.before[1].controls...)
		s.before[1].missing.add(s.before[0].missing)
		s.before = s.before[1:]
	}
}

// tooMuch tells whether more is held than the limits allow.
func (s *live) tooMuch() bool {
	if n := len(s.before); s.rest != nil && n > 1 {
		return n > mostRestCount || s.waiting > mostRestBytes ||
			s.before[n-1].received.Sub(s.before[0].received).Abs() > mostRest
	}
	return len(s.before) > mostBefore || s.waiting > mostBeforeBytes && len(s.before) > 1
}

// begin gives the session its id and its recording. While nothing can be kept, it is tried again every second.
func (s *live) begin(received time.Time) {
	if !s.tried.IsZero() && received.Sub(s.tried).Abs() < time.Second {
		return
	}
	first := s.began.IsZero()
	if first {
		s.began = received
	}
	id, err := s.common.Book.Reserve(s.began, s.name)
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
	if s.origin = received; len(s.before) > 0 {
		s.origin = s.before[0].received
	}
	s.identify(received)
	if w := s.common.Writer; w != nil {
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
			s.recorder.Add(d.bytes, d.from, s.common.Receiver(d.from), d.received, d.controls...)
		}
		s.tapped()
	}
	s.session.Publish(&message.Session{ID: id, State: message.SessionBegan})
}

// record starts or continues the recording.
func (s *live) record() {
	if s.common.Recording == nil {
		return
	}
	log, opening := s.log.With().Str("session", s.id).Logger(), s.opening // a copy, for the recorder's goroutine
	stored, complete := func(string, int64) {}, s.common.Complete
	var sync time.Duration
	if tap, id := s.common.Tap, s.id; tap != nil {
		sync = time.Second // what another machine has is not to be lost here
		stored = func(file string, size int64) {
			if !s.shadow.Load() {
				tap.Stored(id, file, size)
			}
		}
		complete = func(file string) {
			if !s.shadow.Load() {
				tap.Complete(id, file)
				s.common.Complete(file)
			}
		}
	}
	s.recorder = s.common.Book.Folders().Record(s.id, record.Options{
		Program: "halfturn " + s.common.Version,
		Station: s.name,
		Section: func(part int) string { opening.Part = part; return opening.Comment() },
		Lost:    func(n uint64) string { return playback.LostComment(n) },
		Rotate:  s.common.Recording.Rotate,
		Sync:    sync,
		Open:    s.common.Recording.Open,
		Flushed: stored,
		Closed:  complete,
		Totals:  &s.common.Recorded,
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
func (s *live) tellRecording() {
	switch {
	case s.common.Recording == nil || s.owner.sender.Demonstration:
		s.session.SetRecording("off", phrase.Phrase{})
	case s.rest != nil && s.common.Book.Waits() == nil:
		s.session.SetRecording(message.Resting, phrase.Phrase{})
	case s.recorder != nil:
		st := s.recorder.Status()
		s.session.SetRecording(st.State, st.Words)
	case s.began.IsZero():
		if why := s.common.Book.Waits(); why != nil {
			s.session.SetRecording(record.Failing, record.Words(why))
			return
		}
		s.session.SetRecording(record.On, phrase.Phrase{})
	}
}
