package practice

import (
	"context"
	"errors"
	"io"
	"net/netip"
	"path/filepath"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
	"halfturn/web/desk/outlet"
)

// resumeOne repairs and plays a session. It returns the practice that goes on, or nil; may says that it may go on: its
// station waits.
func resumeOne(ctx context.Context, c *Common, id string, now time.Time, may bool) *Practice {
	folders := c.Book.Folders()
	log := c.Log.With().Str("session", id).Logger()
	cut, err := folders.Repair(id)
	for file, n := range cut {
		log.Warn().
			Str("file", file).
			Int64("bytes", n).
			Msg("the end of the recording was torn and was cut off; what comes before is whole")
	}
	if err != nil {
		log.Error().Err(err).Msg("the recording cannot be repaired")
	}
	var p *Practice
	if !c.Faults.Run("station", id, func() { p, err = replayed(ctx, c, id, now, may) }) {
		p, err = nil, errFault
	}
	if err != nil {
		log.Warn().
			Err(err).
			Msg("the session was interrupted and is kept as it is; it cannot be graded from its recording")
		if w := c.Writer; w != nil {
			w.End(id, folders.Changed(id, now))
		}
		if err := c.over(id); err != nil {
			log.Warn().Err(err).Msg("the session is still marked as not over")
		}
		return nil
	}
	if p != nil {
		log.Info().Str("station", p.name).Int("legs", p.session.Legs()).
			Msg("the session waits for its station to go on")
	}
	return p
}

// Why a session is kept as it is.
var (
	errNothing = errors.New("nothing of it was recorded")
	// errIncomplete protects legs that were graded while nothing could be recorded.
	errIncomplete = errors.New("its recording does not hold all that was flown; its grades stay as they are")
	// errOtherCards protects grades that cannot be reproduced.
	errOtherCards = errors.New(
		"it was graded by other cards or another version of Halfturn; its grades stay as they are",
	)
	// errFault keeps a server from failing at each start.
	errFault   = errors.New("a fault in the program ended it while it was played; it stays as it is")
	errNotOurs = errors.New("its recording does not say how it was followed")
	// errHere protects a folder of that name.
	errHere = errors.New("this machine has a session of that name already")
)

// recording opens the recording of a session. The error tells why it cannot be graded again.
func recording(ctx context.Context, c *Common, id string) (*play.Recording, error) {
	r, err := play.Open(ctx, filepath.Join(c.Book.Dir(), id))
	var empty *play.EmptyError
	if errors.As(err, &empty) {
		return nil, errNothing
	}
	if err != nil {
		return nil, err
	}
	o, ours, err := playback.ReadOpening(r.Heading())
	switch {
	case err != nil:
		return nil, err
	case !ours:
		return nil, errNotOurs
	case o.Settings.Cards != c.Menu().Hash() || o.Program != c.Version:
		return nil, errOtherCards
	}
	return r, nil
}

// interrupted is the practice of an interrupted session, before it is played, and how its recording is played. GoesOn
// says that it goes on, unless its recording says otherwise.
func interrupted(c *Common, id string, opening playback.Opening, now time.Time) (p *Practice, o session.Options,
	goesOn bool) {
	address, _ := netip.ParseAddrPort(opening.Address) // an invalid one is like an unknown sender
	p = &Practice{sender: c.Directory.Of(address), address: address}
	cards := c.Menu()
	options := c.options(p.sender.Station, cards)
	options.Coach.Prompts = opening.Settings.Prompts // chosen in a session before, not configured
	same := playback.SettingsOf(&options, cards.Hash()) == opening.Settings
	goesOn = same && now.Sub(c.Book.Folders().Changed(id, now)).Abs() <= c.Idle
	p.live = &live{
		common:  c,
		owner:   p,
		name:    opening.Station,
		place:   p.sender.Place(address),
		id:      id,
		cards:   cards,
		opening: opening,
		choice:  opening.Choice,
		out:     &outlet.Outlet{Output: c.Output, Counts: c.Counts, Past: true},
		log:     c.Log.With().Str("station", opening.Station).Logger(),
	}
	return p, options, goesOn
}

// replayed plays the recording of an interrupted session. It returns the practice if it can continue, and otherwise
// ends and keeps the session.
func replayed(ctx context.Context, c *Common, id string, now time.Time, may bool) (*Practice, error) {
	r, err := recording(ctx, c, id)
	if err != nil {
		return nil, err
	}
	p, options, goesOn := interrupted(c, id, *r.Opening(), now)
	goesOn = goesOn && may // to repair it has changed it
	follow := play.Following{Options: options, Plans: p.cards.Plans, Begun: p.begun}
	if goesOn {
		follow.Output = p.listening
	}
	lost, err := p.play(ctx, r, follow)
	if err != nil {
		return nil, err
	}
	played := p.session.SoFar()
	if lost > 0 || p.entered() > finished(&played) {
		p.session.End(phrase.SessionEnded.Of())
		return nil, errIncomplete
	}
	if goesOn && now.Sub(p.last).Abs() <= c.Idle {
		p.goOnWaiting(now)
		return p, nil
	}
	p.keepOnDisk(p.end(), true)
	return nil, nil
}

// goOnWaiting has a session that was played wait for its station.
func (p *Practice) goOnWaiting(now time.Time) {
	p.out.Past = false
	p.common.Directory.Restore(p, p.waits(now))
	p.tellRecording()
	p.session.Tick(Seconds(now))
	p.kept = p.session.Legs()
	p.keep(p.session.SoFar())
}

// entered is how many finished legs of the session are in the logbook. Other outcomes cannot be compared: stopping the
// server breaks off the leg under way, and resuming the session does not.
func (s *live) entered() (n int) {
	known, err := s.common.Book.Report(context.Background(), s.id, 1)
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

// listening is the output of the session that is played.
func (p *Practice) listening(netip.AddrPort) session.Output { return p.out }

// begun takes the session that the player made, before its first datagram.
func (p *Practice) begun(f *play.Flight) {
	p.session = f.Session
	p.session.SetID(p.id)
	p.session.SetStudent(p.opening.Student)
	p.session.SetPrivate(p.opening.Private)
}

// play plays a recording, and returns how many datagrams the recording says are missing.
func (p *Practice) play(ctx context.Context, r *play.Recording, follow play.Following) (lost uint64, err error) {
	player, err := r.Play(ctx, follow)
	if err != nil {
		return 0, err
	}
	defer player.Close()
	if err := player.Missing(); err != nil {
		return 0, err
	}
	var entry logbook.Entry
	flight := p.feed(player, &entry)
	if flight == nil {
		return 0, errNothing
	}
	if err := player.End(); err != nil {
		p.log.Warn().Err(err).Msg("the session is played without that")
	}
	if flight.Student != "" {
		p.opening.Student = flight.Student
	}
	p.choice = player.Choices()[len(player.Choices())-1]
	if p.began.IsZero() {
		p.began, entry = p.last, p.entry()
	}
	entry.Began, entry.Student.Name = p.began, p.opening.Student
	if w := p.common.Writer; w != nil {
		w.Begin(entry) // the last run may have ended before this was done
	}
	return flight.Lost, nil
}

// feed plays all datagrams, and makes the entry with the choices at the first sample. It returns the flight; nil when
// there are no datagrams.
func (p *Practice) feed(player *play.Player, entry *logbook.Entry) (flight *play.Flight) {
	for {
		d, err := player.Next()
		if err != nil {
			if !errors.Is(err, io.EOF) {
				p.log.Warn().Err(err).Msg("the recording is damaged; the session is taken as far as it can be read")
			}
			return flight
		}
		if flight, _, err = player.Feed(); err != nil {
			p.log.Warn().Err(err).Msg("the session is played without that")
		}
		p.last = d.Received
		if p.origin.IsZero() {
			p.origin = d.Received
		}
		switch {
		case !p.began.IsZero():
		case !flight.Flew.IsZero():
			p.began = d.Received
			*entry = p.entry()
		default:
			p.hold(datagram{bytes: append([]byte{}, d.Payload...), from: d.Source, received: d.Received})
		}
	}
}
