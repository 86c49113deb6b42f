package desk

import (
	"cmp"
	"context"
	"net/netip"
	"time"

	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
	"halfturn/coach/measure"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
	"halfturn/web/desk/identity"
	"halfturn/web/show"
)

// demonstration is the name of the station at which the built-in aircraft shows how it is done.
const demonstration = "Demonstration"

// Expect says that datagrams from an address of this program are a demonstration of a choice. It returns the name of
// its station. The error names a card that does not exist.
func (d *Desk) Expect(address netip.AddrPort, c maneuver.Choice) (station string, err error) {
	if err := d.check(c); err != nil {
		return "", err
	}
	d.directory.Expect(address, identity.Sender{
		Name:          demonstration,
		Choice:        c,
		Station:       d.cfg.Station,
		Demonstration: true,
	})
	return demonstration, nil
}

// strays is how long the last datagrams of a demonstration may be on their way.
const strays = 100 * time.Millisecond

// Leave ends the station of a demonstration, and returns when its viewers were told. Datagrams that come behind its end
// belong to it too: they begin no station of somebody unknown.
func (d *Desk) Leave(ctx context.Context, address netip.AddrPort) {
	defer d.directory.Unexpect(address)
	d.mu.Lock()
	senders := d.senders
	d.mu.Unlock()
	if senders == nil {
		return
	}
	_ = senders.End(ctx, address, &leave{}) // one that is not there has left
	select {
	case <-time.After(strays):
		_ = senders.End(ctx, address, &leave{})
	case <-ctx.Done():
	}
}

// A leave asks the station of a demonstration to end.
type leave struct{ asked }

func (*leave) of(s *station) bool { return s.practice.IsDemonstration() }

// A Demonstrator flies demonstrations; see show.Show.
type Demonstrator interface {
	Begin(c maneuver.Choice, pace float64) (show.Showing, error)
	End()
}

// Demonstrates says who flies the demonstrations that are handed over to.
func (d *Desk) Demonstrates(by Demonstrator) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.shows = by
}

func (d *Desk) demonstrator() Demonstrator {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.shows
}

// A standingQuestion asks what is chosen at a station, and whether a leg is being flown there.
type standingQuestion struct {
	asked
	choice maneuver.Choice
	flying bool
}

func (q *standingQuestion) of(s *station) bool {
	q.choice, q.flying = s.practice.Choice(), s.practice.Flying()
	return false
}

// demonstrate begins a demonstration for a station: of what is chosen there where c leaves it open. No leg is taken out
// of the pilot's sight.
func (d *Desk) demonstrate(ctx context.Context, station string, c maneuver.Choice) (show.Showing, error) {
	var q standingQuestion
	by := d.demonstrator()
	if by == nil {
		return show.Showing{}, phrase.NoDemonstration.Error()
	}
	if err := d.ask(ctx, station, &q); err != nil {
		return show.Showing{}, err
	}
	if q.flying {
		return show.Showing{}, phrase.HandOverInLeg.Error(phrase.Name("station", station))
	}
	c.Maneuver = cmp.Or(c.Maneuver, q.choice.Maneuver)
	c.Standard = cmp.Or(c.Standard, q.choice.Standard)
	c.Aircraft = cmp.Or(c.Aircraft, q.choice.Aircraft)
	return by.Begin(c, 1)
}

// A guiding reads or changes the measurement of the aircraft at a station.
type guiding struct {
	asked
	change func(*measure.Guide) *measure.Guide
	guide  measure.Progress
	choice maneuver.Choice
	there  bool
}

func (g *guiding) of(s *station) bool {
	was := s.practice.Guide()
	now := g.change(was)
	if now != was {
		s.practice.SetGuide(now)
	}
	g.choice = s.practice.Choice()
	if g.there = now != nil; g.there {
		g.guide = now.Progress()
		g.guide.Results = now.Results()
	}
	return false
}

// Guide changes the measurement of the aircraft at a station (nil: none goes on), and returns where it stands then and
// what is flown there. ok is false when none goes on.
func (d *Desk) Guide(
	ctx context.Context, station string, change func(*measure.Guide) *measure.Guide,
) (p measure.Progress, c maneuver.Choice, ok bool, err error) {
	g := &guiding{change: change}
	err = d.ask(ctx, station, g)
	return g.guide, g.choice, g.there, err
}

// Aircraft lists the aircraft cards that can be chosen.
func (d *Desk) Aircraft() []*aircraft.Aircraft { return d.menu.Load().Aircraft() }

// AddAircraft makes one more aircraft card one that can be chosen. The error says what is wrong with its text.
func (d *Desk) AddAircraft(file string, text []byte) error {
	return d.menu.Load().AddAircraft(file, text)
}

// Plans finds the plans of a choice, as playback.Plans.
func (d *Desk) Plans(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	return d.menu.Load().Plans(c)
}

// Options are those of a session here, but for its plans.
func (d *Desk) Options() session.Options { return d.practices.Options(d.cfg.Station) }

// Complete takes a file of a recording that is complete: it is compressed, where that is configured.
func (d *Desk) Complete(file string) { d.upkeep.Complete(file) }
