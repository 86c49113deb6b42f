package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// How a leg ends (common practice, no source).
const (
	levelBank    = 5.0  // °: wings level
	leaveBank    = 10.0 // °: no longer level; less is the roll-out still swinging
	endMargin    = 30.0 // ° short of the full turn from where level wings end the leg
	levelToEnd   = 1.0  // s of level wings that end it
	levelToBreak = 3.0  // s of level wings that break it off
	fallBack     = 15.0 // ° of turning back that break it off
)

// An ending looks for the end of a leg.
type ending struct {
	exit       check.Moment
	exiting    bool    // exit holds where the wings came level
	rolled     bool    // the wings have been out of level
	levelSince float64 // NaN while the wings are not level again
	replaying  bool    // the past is being flown through
	external   bool    // the leg is ended by the stream or a choice, not by the pilot
}

// An end is how a leg ended. The zero value is none.
type end struct {
	outcome, reason string
	exit            *check.Moment
}

// seek looks for the end of the leg at its current moment.
func (e *ending) seek(at *position, card *maneuver.Card) end {
	m := at.cur
	bank, now := m.Sample.Value(stream.Bank), m.Time()
	switch {
	case m.Turn < at.farthest-fallBack:
		return end{outcome: coach.BrokenOff, reason: "turned back"}
	case now-at.start > card.Limit:
		return end{outcome: coach.BrokenOff, reason: "took longer than the card allows"}
	case e.exits(at, card.Turn-endMargin, bank):
		return end{outcome: coach.Finished, exit: &e.exit}
	}
	if math.Abs(bank) > levelBank {
		e.rolled, e.levelSince = true, math.NaN()
	} else if math.IsNaN(e.levelSince) && (e.rolled || !e.replaying) { // the roll-in of the past may begin gently
		e.levelSince = now
	} else if now-e.levelSince >= levelToBreak && m.Turn < card.Turn-endMargin && m.Turn > card.Commit.Turned {
		return end{outcome: coach.BrokenOff, reason: "rolled level short of the turn"}
	}
	return end{}
}

// exits notes where the wings come level from a turn angle on, and reports whether they stay so.
func (e *ending) exits(at *position, from, bank float64) bool {
	m := at.cur
	switch {
	case e.exiting && bank > leaveBank:
		e.exiting = false
	case e.exiting:
		return bank < -levelBank || m.Time()-e.exit.Time() >= levelToEnd
	case m.Turn >= from && bank <= levelBank:
		e.exiting, e.exit = true, *m
		if was := at.prev.Sample.Value(stream.Bank); was > levelBank && at.prev.Turn >= from {
			e.exit.Lerp(at.prev, m, (was-levelBank)/(was-bank))
		}
	}
	return false
}
