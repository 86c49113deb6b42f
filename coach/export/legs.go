package export

import (
	"context"
	"errors"
	"net/netip"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/pipeline"
)

// A Graded is what one sender of a recording flew, graded, with the pictures of its legs.
type Graded struct {
	Sender netip.AddrPort
	Began  float64 // s since the Unix epoch, of the first datagram
	Report debrief.StationReport
	Legs   []PicturedLeg
}

// A PicturedLeg is a leg with its picture, the plan it was flown by, and where it is.
type PicturedLeg struct {
	coach.Leg
	Plan *message.Chart
	Span Span
	Said []coach.Callout // during the leg, and since the leg before
}

// listener collects the legs and callouts of a session.
type listener struct {
	flown *Graded
	plan  *message.Chart
	said  []coach.Callout // since the last leg
	jumps int
}

// mostSaid is how many callouts before a leg are kept.
const mostSaid = 64

// Watched reports that no frames are needed.
func (l *listener) Watched(string) bool { return false }

// Frame ignores frames.
func (l *listener) Frame(string, *coach.Frame) {}

// Event keeps plans, legs and callouts.
func (l *listener) Event(m message.Message) {
	switch b := m.Body.(type) {
	case *message.Chart:
		l.plan = b
	case message.Callout:
		if b.Words == "" {
			return
		}
		if n := len(l.flown.Legs); b.Kind == coach.Result && n > 0 { // comes just after the leg
			l.flown.Legs[n-1].Said = append(l.flown.Legs[n-1].Said, *b.Callout)
			return
		}
		if l.said = append(l.said, *b.Callout); len(l.said) > mostSaid {
			l.said = l.said[1:]
		}
	case message.Leg:
		l.flown.Legs = append(l.flown.Legs, PicturedLeg{
			Leg:  *b.Leg,
			Plan: l.plan,
			Span: Span{Jumps: l.jumps, From: b.Start, To: b.End},
			Said: l.said,
		})
		l.said = nil
	}
}

// Fly grades a recording as it is followed, and keeps the pictures. What was read before an error is returned with it.
// The player says which cards judged it.
func Fly(ctx context.Context, rec *play.Recording, follow play.Following) (_ []*Graded, p *play.Player, err error) {
	follow.Output = func(sender netip.AddrPort) session.Output {
		return &listener{flown: &Graded{Sender: sender}}
	}
	if p, err = rec.Play(ctx, follow); err != nil {
		return nil, nil, err
	}
	err = p.Run(func(s *play.Flight, result pipeline.Result) {
		if result.Outcome == pipeline.Jumped {
			s.Output.(*listener).jumps++ // callouts so far belong before the jump
		}
	})
	var all []*Graded
	for _, s := range p.Flights() {
		flown := s.Output.(*listener).flown
		flown.Began, flown.Report = stream.Seconds(s.Began), p.Report(s)
		all = append(all, flown)
	}
	return all, p, errors.Join(err, p.Close())
}
