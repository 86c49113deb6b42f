package leg

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/coach/sampling"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// How a leg ends (common practice, no source).
const (
	flatBank     = 1.0  // °: as level as can be seen
	levelToEnd   = 1.0  // s of level wings that end it
	levelToBreak = 3.0  // s of level wings that break it off
	fallBack     = 15.0 // ° of turning back that break it off
	turnAgain    = 15.0 // ° of bank that end the recovery after it: another turn has begun
)

// An ending looks for the end of a leg.
type ending struct {
	exit       *check.Moment // nil before the wings come level
	level      *check.Moment // where the last of the bank was gone; nil as long as exit is
	exiting    bool          // exit holds where the wings came level
	flat       bool          // level holds where the last of the bank was gone
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
	Exit     *check.Moment // where the wings came level; nil unless it was finished
	Level    *check.Moment // where the last of the bank was gone, a second later at most: what the exit is judged by
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
	case e.exits(at, card.ExitFrom(), bank):
		if e.recovering = e.out(now) < card.Recovery.Time; e.recovering {
			return End{}
		}
		return e.finished()
	}
	if math.Abs(bank) > aero.LevelBank {
		e.rolled, e.levelSince = true, math.NaN()
	} else if math.IsNaN(e.levelSince) && (e.rolled || !e.replaying) { // the roll-in of the past may begin gently
		e.levelSince = now
	} else if now-e.levelSince >= levelToBreak && m.Turn < card.ExitFrom() && m.Turn > card.Commit.Turned {
		return End{Outcome: coach.BrokenOff, Reason: phrase.RolledLevel.Of()}
	}
	return End{}
}

// finished is the end of a leg that was flown to its exit.
func (e *ending) finished() End { return End{Outcome: coach.Finished, Exit: e.exit, Level: e.level} }

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
		e.flatten(at, bank)
		return bank < -aero.LevelBank || m.Time()-e.exit.Time() >= levelToEnd
	case m.Turn >= from && bank <= aero.LevelBank:
		e.exiting, e.flat, e.exit = true, false, new(*m)
		if was := at.prev.Sample.Value(stream.Bank); was > aero.LevelBank && at.prev.Turn >= from {
			e.exit.Lerp(at.prev, m, (was-aero.LevelBank)/(was-bank))
		}
		e.level = new(*e.exit)
		e.flatten(at, bank)
	}
	return false
}

// flatten notes where the last of the bank has gone, or what it has come to at the end of the leg: at 5° of bank a
// pull-out may still be under way.
func (e *ending) flatten(at *Position, bank float64) {
	if e.flat {
		return
	}
	was, end := at.prev.Sample.Value(stream.Bank), e.exit.Time()+levelToEnd
	switch before := at.prev.Time(); {
	case bank <= flatBank && was > flatBank:
		e.flat = true
		e.level.Lerp(at.prev, at.Cur, (was-flatBank)/(was-bank))
	case bank <= flatBank:
		e.flat, *e.level = true, *at.Cur
	case at.Cur.Time() > end && before < end:
		e.level.Lerp(at.prev, at.Cur, (end-before)/(at.Cur.Time()-before))
	default:
		*e.level = *at.Cur
	}
}
