package leg

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/coach/sampling"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// How a leg ends (common practice, no source).
const (
	LevelBank    = 5.0  // °: wings level
	EndMargin    = 30.0 // ° short of the full turn from where level wings end the leg
	levelToEnd   = 1.0  // s of level wings that end it
	levelToBreak = 3.0  // s of level wings that break it off
	fallBack     = 15.0 // ° of turning back that break it off
	turnAgain    = 15.0 // ° of bank that end the recovery after it: another turn has begun
)

// An ending looks for the end of a leg.
type ending struct {
	exit       *check.Moment // nil before the wings come level
	exiting    bool          // exit holds where the wings came level
	rolled     bool          // the wings have been out of level
	levelSince float64       // NaN while the wings are not level again
	replaying  bool          // the past is being flown through
	recovering bool          // the exit is certain, and the recovery after it is being watched
}

// An End is how a leg ended. The zero value is none.
type End struct {
	Outcome  string
	Reason   phrase.Phrase
	Limit    string        // the id of the limit that knocks it off, "" for none
	Exit     *check.Moment // nil unless it was finished
	External bool          // the stream or a choice ended it, not the pilot
}

// seek looks for the end of the leg at its current moment.
func (e *ending) seek(at *Position, card *maneuver.Card) End {
	m := at.Cur
	bank, now := m.Sample.Value(stream.Bank), m.Time()
	switch {
	case e.recovering:
		if math.Abs(bank) > turnAgain || e.out(now) >= card.Recovery.Time {
			return e.finished()
		}
		return End{}
	case m.Turn < at.Farthest-fallBack:
		return End{Outcome: coach.BrokenOff, Reason: phrase.TurnedBack.Of()}
	case now-at.Start > card.Limit:
		return End{Outcome: coach.BrokenOff, Reason: phrase.TookTooLong.Of()}
	case e.exits(at, card.Turn-EndMargin, bank):
		if e.recovering = e.out(now) < card.Recovery.Time; e.recovering {
			return End{}
		}
		return e.finished()
	}
	if math.Abs(bank) > LevelBank {
		e.rolled, e.levelSince = true, math.NaN()
	} else if math.IsNaN(e.levelSince) && (e.rolled || !e.replaying) { // the roll-in of the past may begin gently
		e.levelSince = now
	} else if now-e.levelSince >= levelToBreak && m.Turn < card.Turn-EndMargin && m.Turn > card.Commit.Turned {
		return End{Outcome: coach.BrokenOff, Reason: phrase.RolledLevel.Of()}
	}
	return End{}
}

// finished is the end of a leg that was flown to its exit.
func (e *ending) finished() End { return End{Outcome: coach.Finished, Exit: e.exit} }

// out returns the time since the wings came level at the exit, s; 0 while they have not.
func (e *ending) out(now float64) float64 {
	if !e.exiting {
		return 0
	}
	return now - e.exit.Time()
}

// exits notes where the wings come level from a turn angle on, and reports whether they stay so.
func (e *ending) exits(at *Position, from, bank float64) bool {
	m := at.Cur
	switch {
	case e.exiting && bank > sampling.LeaveBank:
		e.exiting = false
	case e.exiting:
		return bank < -LevelBank || m.Time()-e.exit.Time() >= levelToEnd
	case m.Turn >= from && bank <= LevelBank:
		e.exiting, e.exit = true, new(*m)
		if was := at.prev.Sample.Value(stream.Bank); was > LevelBank && at.prev.Turn >= from {
			e.exit.Lerp(at.prev, m, (was-LevelBank)/(was-bank))
		}
	}
	return false
}
