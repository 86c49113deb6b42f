package main

import (
	"context"
	"fmt"
	"math"

	"halfturn/coach"
	"halfturn/coach/brief"
	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/web"
	"halfturn/web/internal/feed"
)

// Cards, Do and Legs make the player a desk.
func (p *player) Cards() web.Cards {
	return web.Cards{
		Maneuvers: []brief.Title{{Name: "wing-over", Title: "Wing-over"}, {Name: "lazy-eight", Title: "Lazy eight"}},
		Auto:      brief.Title{Name: coach.AutoManeuver, Title: coach.AutoTitle},
		Standards: []brief.Title{{Name: "practice", Title: "Practice"}, {Name: "course", Title: "Course"}},
		Aircraft: []web.AircraftTitle{
			aircraft("turboprop-trainer", "Turboprop trainer", 155, 112, 74),
			aircraft("light-single", "Light single", 105, 62, 48),
		},
	}
}

func aircraft(name, title string, entry, apex, stall float64) web.AircraftTitle {
	return web.AircraftTitle{Title: brief.Title{Name: name, Title: title}, Entry: entry, Apex: apex, Stall: stall}
}

// Do carries out the commands that show on a page.
func (p *player) Do(_ context.Context, c command.Command) error {
	switch a := c.Action.(type) {
	case command.Choose:
		return p.choose(a.Choice)
	case command.Mark:
		p.event(&message.Mark{ID: c.ID, By: c.By, At: c.At, Time: p.now, Turn: new(p.turn), Words: a.Words})
	case command.Private:
		p.station("live", func(s *message.Station) { s.Private = a.On })
	case command.Drill:
		p.station("live", func(s *message.Station) {
			s.Task = &message.Task{Cause: a.Cause, Want: 3, Prompts: "all"}
		})
	case command.Stop:
		p.say(&coach.Callout{Kind: coach.Safety, ID: coach.KnockedOff, Words: "Knock it off", Tone: "safety"})
	case command.Line:
		p.line(a.LineChoice)
	}
	return nil
}

// choose takes the wing-over, chosen or found; the other maneuver is there to be refused.
func (p *player) choose(c maneuver.Choice) error {
	p.auto = c.Maneuver == coach.AutoManeuver
	if p.auto {
		c.Maneuver = "wing-over"
	}
	if c.Maneuver != "wing-over" {
		return fmt.Errorf("the maneuver card %q has no place in this flight: choose wing-over", c.Maneuver)
	}
	p.maneuver, p.aircraft = c.Maneuver, c.Aircraft
	p.station("live", nil)
	return nil
}

// line puts the chosen line into the next frames.
func (p *player) line(c coach.LineChoice) {
	f := feed.Level(p.now, true)
	f.Line = nil
	if !c.Clear {
		f.Line = &coach.Line{Heading: 90, Side: c.Side, Distance: c.Distance}
		if c.Heading != nil {
			f.Line.Heading, f.Line.Off = *c.Heading, math.Remainder(90-*c.Heading, 180)
		}
	}
	p.hub.Frame(p.name, f)
}

// Brief is of a shipped card, whatever is flown here.
func (p *player) Brief(c maneuver.Choice) (any, error) {
	card, err := p.shipped.Judged(c.Maneuver, c.Standard)
	if err != nil {
		return nil, err
	}
	aircraft, err := p.shipped.AircraftNamed(c.Aircraft)
	if err != nil {
		return nil, err
	}
	return brief.New(plan.New(card, aircraft)), nil
}

// Legs returns none.
func (p *player) Legs(_ context.Context, station string) (any, bool) {
	return map[string]any{"station": station, "series": []any{}}, p.hub.Has(station)
}
