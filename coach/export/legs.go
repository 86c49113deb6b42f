package export

import (
	"errors"
	"io"
	"net/netip"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/session"
	"halfturn/stream/station"
)

// A Flown is what one sender of a recording flew, graded, with the pictures of its legs.
type Flown struct {
	Sender netip.AddrPort
	Began  float64 // s since the Unix epoch, of the first datagram
	Report debrief.Station
	Legs   []FlownLeg
}

// A FlownLeg is a leg with its picture, the plan it was flown by, and where it is.
type FlownLeg struct {
	coach.Leg
	Plan *session.Plan
	Span Span
	Said []coach.Callout // in it, and since the leg before
}

// listener notes what a session tells.
type listener struct {
	flown *Flown
	plan  *session.Plan
	said  []coach.Callout // since the last leg
	jumps int
}

// mostSaid is how many callouts before a leg are kept.
const mostSaid = 64

// Watched says that nobody looks at frames.
func (l *listener) Watched(string) bool { return false }

// Frame takes none.
func (l *listener) Frame(string, *coach.Frame) {}

// Event notes plans, legs and what was said.
func (l *listener) Event(m session.Message) {
	switch b := m.Body.(type) {
	case *session.Plan:
		l.plan = b
	case *coach.Callout:
		if b.Words == "" {
			return
		}
		if n := len(l.flown.Legs); b.Kind == coach.Result && n > 0 { // told just after the leg
			l.flown.Legs[n-1].Said = append(l.flown.Legs[n-1].Said, *b)
			return
		}
		if l.said = append(l.said, *b); len(l.said) > mostSaid {
			l.said = l.said[1:]
		}
	case *coach.Leg:
		l.flown.Legs = append(l.flown.Legs, FlownLeg{Leg: *b, Plan: l.plan, Span: Span{Jumps: l.jumps, From: b.Start, To: b.End}, Said: l.said})
		l.said = nil
	}
}

// Fly grades a recording as grade does, and keeps the pictures. What was read before a cut is
// returned with the error. With plans it is a session of Halfturn's own, of which what was changed
// on the way is changed again; else it is a capture. Of a session that goes on, a leg under way is no leg yet.
func Fly(src Source, opt session.Options, plans session.Plans, goesOn bool) ([]*Flown, error) {
	type seat struct {
		*session.Play
		*listener
	}
	seats := map[netip.AddrPort]*seat{}
	var order []*seat
	var failed error
	for {
		d, err := src.Next()
		if err != nil {
			if !errors.Is(err, io.EOF) {
				failed = err
			}
			break
		}
		s := seats[d.Source]
		if s == nil {
			if len(seats) == mostSenders {
				continue
			}
			l := &listener{flown: &Flown{Sender: d.Source, Began: d.Seconds()}}
			o := opt
			o.Name, o.Address, o.Output = d.Source.String(), d.Source.String(), l
			if plans != nil {
				o.Name, o.Address = opt.Name, opt.Address
			}
			s = &seat{session.NewPlay(session.New(o), plans), l}
			seats[d.Source] = s
			order = append(order, s)
		}
		result, err := s.Feed(d.Payload, d.Seconds(), d.Comments)
		if result.Outcome == station.Jumped {
			s.jumps++ // what was told on the way still belongs before it
		}
		if err != nil && failed == nil {
			failed = err
		}
	}
	var all []*Flown
	for _, s := range order {
		var err error
		switch {
		case goesOn:
			err = s.Apply(rest(src))
		case plans == nil:
			s.Session.End("the recording ended")
		default:
			err = s.End(rest(src))
		}
		if err != nil && failed == nil {
			failed = err
		}
		if s.flown.Report = s.Session.Report(); goesOn {
			s.flown.Report = s.Session.SoFar()
		}
		all = append(all, s.flown)
	}
	return all, failed
}

// rest are the comments after the last datagram.
func rest(src Source) []string {
	if r, ok := src.(interface{ Rest() []string }); ok {
		return r.Rest()
	}
	return nil
}
