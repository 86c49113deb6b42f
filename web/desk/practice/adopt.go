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

// A Taken is a session that another machine flew, as it was recorded there.
type Taken struct {
	Opening playback.Opening // as it stands in the recording
	// Each calls take with the datagrams in their order: head says that one came before the first sample. They are
	// valid during the call.
	Each func(take func(d Datagram, head bool)) error
	Over bool // it was ended there
}

// Adopt plays the session of another machine, which is recorded here as it was there, and returns the practice that
// goes on with it. What it publishes was published before, as far as the other machine came. Nil without an error says
// that the session was over and is kept here.
func Adopt(c *Common, t *Taken, now time.Time) (*Practice, error) {
	o := t.Opening
	cards := c.Menu()
	if o.Settings.Cards != cards.Hash() || o.Program != c.Version {
		return nil, errOtherCards
	}
	if !c.Book.Folders().Take(o.Session) {
		return nil, errHere
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
	if err := p.adopt(t); err != nil {
		p.Abandon()
		return nil, err
	}
	if t.Over {
		p.out.Past = false
		p.keepOnDisk(p.end(), true)
		return nil, nil
	}
	p.goOnWaiting(now)
	return p, nil
}

// adopt plays and records what came so far.
func (p *Practice) adopt(t *Taken) error {
	plans := func(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
		one, auto, err := p.cards.Plans(c)
		if err == nil {
			p.choice = menu.ChoiceOf(one, auto)
		}
		return one, auto, err
	}
	options, err := p.opening.Options(p.common.options(p.sender.Station, p.cards), plans)
	if err != nil {
		return err
	}
	options.Name, options.Address, options.Output = p.name, p.opening.Address, p.out
	play := playback.New(session.New(options), plans)
	p.session = play.Session
	p.session.SetID(p.id)
	p.session.SetStudent(p.opening.Student)
	p.session.SetPrivate(p.opening.Private)
	p.record()
	var entry logbook.Entry
	err = t.Each(func(d Datagram, head bool) {
		p.follow(play, &d, head, &entry)
	})
	if err != nil {
		return err
	}
	if p.last.IsZero() {
		return errNothing
	}
	if play.Student != "" {
		p.opening.Student = play.Student
	}
	if p.began.IsZero() {
		p.began, entry = p.last, p.entry()
	}
	entry.Began, entry.Student.Name = p.began, p.opening.Student
	if w := p.common.Writer; w != nil {
		w.Begin(entry)
	}
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
