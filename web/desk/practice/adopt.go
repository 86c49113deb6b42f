package practice

import (
	"net/netip"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream/record"
	"halfturn/web/desk/menu"
	"halfturn/web/desk/outlet"
)

// A Shadow follows a session that another machine flies, as it is recorded there: it is coached and recorded here too.
// Its output must hold back what it publishes, which the other machine has published. It is for one goroutine at a
// time.
type Shadow struct {
	practice *Practice
	play     *playback.Play
	entry    logbook.Entry
}

// Follow begins to follow a session of another machine, by the opening that stands in its recording.
func Follow(c *Common, o playback.Opening) (*Shadow, error) {
	cards := c.Menu()
	if o.Settings.Cards != cards.Hash() || o.Program != c.Version {
		return nil, errOtherCards
	}
	address, _ := netip.ParseAddrPort(o.Address) // an invalid one is like an unknown sender
	p := &Practice{sender: c.Directory.Of(address), address: address}
	p.live = &live{
		common:  c,
		owner:   p,
		name:    o.Station,
		place:   p.sender.Place(address),
		id:      o.Session,
		cards:   cards,
		opening: o,
		choice:  o.Choice,
		out:     &outlet.Outlet{Output: c.Output, Counts: c.Counts, Past: true},
		log:     c.Log.With().Str("station", o.Station).Logger(),
	}
	plans := func(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
		one, auto, err := cards.Plans(c)
		if err == nil {
			p.choice = menu.ChoiceOf(one, auto)
		}
		return one, auto, err
	}
	options, err := o.Options(c.options(p.sender.Station, cards), plans)
	if err != nil {
		return nil, err
	}
	if !c.Book.Folders().Take(o.Session) {
		return nil, errHere
	}
	options.Name, options.Address, options.Output = p.name, o.Address, p.out
	s := &Shadow{practice: p, play: playback.New(session.New(options), plans)}
	p.session = s.play.Session
	p.session.SetID(p.id)
	p.session.SetStudent(o.Student)
	p.session.SetPrivate(o.Private)
	p.shadow.Store(true)
	p.record()
	return s, nil
}

// Datagram takes the next datagram; head says that it came before the first sample.
func (s *Shadow) Datagram(d *Datagram, head bool) { s.practice.follow(s.play, d, head, &s.entry) }

// Over reports whether the session is over when its station sends again at a time: it was silent for too long.
func (s *Shadow) Over(next time.Time) bool { return next.Sub(s.practice.last) > s.practice.common.Idle }

// GoOn goes on with the session here, and returns the practice, which waits for its station.
func (s *Shadow) GoOn(now time.Time) (*Practice, error) {
	p := s.practice
	if err := s.take(); err != nil {
		return nil, err
	}
	p.goOnWaiting(now)
	return p, nil
}

// End ends and keeps a session that was over when the other machine was lost.
func (s *Shadow) End() error {
	if err := s.take(); err != nil {
		return err
	}
	s.practice.out.Past = false
	s.practice.keepOnDisk(s.practice.end(), true)
	return nil
}

// Abandon ends following. It waits for the disk. It returns the id of the session, whose folder stays.
func (s *Shadow) Abandon() (session string) { return s.practice.Abandon() }

// take makes the session that of this machine.
func (s *Shadow) take() error {
	p := s.practice
	if p.last.IsZero() {
		return errNothing
	}
	if s.play.Student != "" {
		p.opening.Student = s.play.Student
	}
	if p.began.IsZero() {
		p.began, s.entry = p.last, p.entry()
	}
	s.entry.Began, s.entry.Student.Name = p.began, p.opening.Student
	if w := p.common.Writer; w != nil {
		w.Begin(s.entry)
	}
	p.shadow.Store(false)
	p.tapped()
	return nil
}

// follow plays and records one datagram.
func (p *Practice) follow(play *playback.Play, d *Datagram, head bool, entry *logbook.Entry) {
	r, err := play.Feed(d.Bytes, Seconds(d.Received), d.Comments)
	if err != nil {
		p.log.Warn().Err(err).Msg("the session is played without that")
	}
	p.last = d.Received
	if p.origin.IsZero() {
		p.origin = d.Received
	}
	if head {
		p.hold(datagram{bytes: append([]byte{}, d.Bytes...), from: d.From, received: d.Received})
	}
	if p.began.IsZero() && flown(r) {
		p.began = d.Received
		*entry = p.entry()
	}
	if p.recorder == nil {
		return
	}
	for p.recorder.Waiting() > mostUnwritten && p.recorder.Status().State != record.Failing {
		p.recorder.Flush()
		time.Sleep(time.Millisecond) // a session is played faster than a disk may take it
	}
	p.recorder.Add(d.Bytes, d.From, d.To, d.Received, d.Comments...)
}

// mostUnwritten is how many datagrams of a session that is played wait for the disk.
const mostUnwritten = 128

// Abandon leaves the session to another machine, which goes on with it: it is ended here without a word, and nothing
// of it is entered. It waits for the disk. It returns the id of the session; "" when none was begun.
func (p *Practice) Abandon() (session string) {
	p.common.Directory.Release(p, p.opening.StationID)
	p.out.Muted = true
	if p.recorder != nil {
		if err := p.recorder.Close(); err != nil {
			p.log.Debug().Err(err).Msg("the recording is left to another machine")
		}
	}
	return p.id
}
