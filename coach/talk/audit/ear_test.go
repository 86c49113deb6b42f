package audit

import (
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/callout"
)

// rate is how fast the listener's voice speaks, words a second: 150 a minute, conversation.
const rate = 2.5

// A heard is a phrase as it was heard.
type heard struct {
	*coach.Callout
	begun, ended float64
	cut          bool          // something else interrupted it
	asks         []callout.Ask // of one that is made up; nil is as declared
}

// An ear listens to callouts as a page and the server's speech do, with an average voice.
type ear struct {
	heard   []*heard
	waiting []*coach.Callout // cues
}

// ranks are the kinds of callout, from the one that interrupts everything.
var ranks = []string{coach.Safety, coach.Watch, coach.Cue, coach.After, coach.Result, coach.NextTime, coach.SetUpSaid}

func rank(kind string) int { return slices.Index(ranks, kind) }

func (e *ear) legOver() { e.waiting = nil }

// speaking returns what is being said; nil for nothing.
func (e *ear) speaking(now float64) *heard {
	if n := len(e.heard); n > 0 && e.heard[n-1].ended > now && !e.heard[n-1].cut {
		return e.heard[n-1]
	}
	return nil
}

func (e *ear) say(c *coach.Callout, now float64) {
	if s := e.speaking(now); s != nil {
		s.cut, s.ended = true, now
	}
	length := float64(len(strings.Fields(c.Words))) / rate
	e.heard = append(e.heard, &heard{Callout: c, begun: now, ended: now + length})
}

// call takes a callout.
func (e *ear) call(c *coach.Callout) {
	switch {
	case c.Kind == coach.Clear:
		e.waiting = slices.DeleteFunc(e.waiting, func(q *coach.Callout) bool { return q.ID == c.ID })
	case c.Kind == coach.Cue:
		e.waiting = append(e.waiting, c)
	case c.Words == "":
	default:
		if c.Kind == coach.Safety {
			e.waiting = nil
		}
		now := c.Time
		if s := e.speaking(now); s != nil && rank(c.Kind) > rank(s.Kind) {
			now = s.ended // a result waits
		}
		e.say(c, now)
	}
}

// look begins the cues whose time has come.
func (e *ear) look(f *coach.Frame) {
	e.waiting = slices.DeleteFunc(e.waiting, func(c *coach.Callout) bool {
		left := *c.Due - f.Time
		for _, q := range f.Cues {
			if q.To == *c.To {
				left = q.Seconds
			}
		}
		length := float64(len(strings.Fields(c.Words))) / rate
		switch {
		case f.State != "leg" || f.Turn > *c.To || left-length < -0.4:
			return true
		case left > length:
			return false
		}
		if s := e.speaking(f.Time); s != nil && rank(s.Kind) <= rank(coach.Cue) {
			return false
		}
		e.say(c, f.Time)
		return true
	})
}
