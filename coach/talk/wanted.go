package talk

import (
	"math"

	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// reach is how far past the end of the words a phrase must still be right, s: the pilot hears them, moves, and the
// aircraft answers (common practice, no source).
const reach = 2.0

// keeps is the share of a rate that is taken to last while words are heard: people slow down before they arrive (common
// practice, no source; proved on recorded flights).
const keeps = 0.5

// steep is the bank past which no pull is asked for, °: the bank comes off first (Instrument Flying Handbook, nose-low
// recovery: power, wings level, then the nose). A maneuver held at a steeper bank is pulled at that.
const steep = 45.0

// A state is the flight of now, as far as it decides what is said, bank toward the turn.
type state struct {
	turn, turnRate float64
	bank, bankRate float64
	nose, noseRate float64 // above its pitch at the entry
	height, climb  float64 // ft since the entry, ft/s
	off            bool    // something is past twice its corridor
}

// look takes the state of now.
func (t *Talk) look() {
	l := t.leg
	m, entry, side, w := l.Moment(), l.Entry(), l.Side(), l.Rates()
	l.state = state{
		turn:     m.Turn,
		turnRate: max(0, w.TurnRate*side),
		bank:     m.Sample.Value(stream.Bank),
		bankRate: w.BankRate * side,
		nose:     m.Sample.Value(stream.Pitch) - entry.Sample.Value(stream.Pitch),
		noseRate: w.NoseRate,
		climb:    w.Climb / 60,
	}
	if h, ok := m.Sample.Get(stream.Altitude); ok {
		l.height = h - entry.Sample.Value(stream.Altitude)
	}
}

// A course is where a quantity goes and where it should: now, when words said now have ended, and a little later.
type course struct {
	now, then     float64
	aim, aimAtEnd float64
	later         float64 // the aim a little later, or at the next checkpoint
	post          float64 // the aim at the next checkpoint
	far           bool    // far out: then it is the way back that is said, whatever is wanted at the next checkpoint
	known         bool
}

// wantsMore reports whether the quantity is too small, will be still when it counts, and is not to be smaller yet at
// the next checkpoint than it is now.
func (c *course) wantsMore() bool {
	soon := c.now < c.aim && c.then < c.aimAtEnd && c.then < c.later
	return c.known && soon && (c.far || math.Max(c.now, c.then) < c.post)
}

// wantsLess likewise.
func (c *course) wantsLess() bool {
	soon := c.now > c.aim && c.then > c.aimAtEnd && c.then > c.later
	return c.known && soon && (c.far || math.Min(c.now, c.then) > c.post)
}

// follow returns the course of a lane, "bank" or "pitch", for words of a length, s.
func (t *Talk) follow(lane string, length float64) (c course) {
	l := t.leg
	full := max(l.turn, t.plan.Card.Turn)
	end := min(l.turn+l.turnRate*length, full)
	stop := min(l.next(end), full) // of the checkpoint ahead when the words have ended
	later := min(end+l.turnRate*reach, stop)
	c.now, c.then = l.bank, l.bank+keeps*l.bankRate*length
	if lane == "pitch" {
		c.now, c.then = l.nose, l.nose+keeps*l.noseRate*length
	}
	aim, width, known := t.plan.Aim(lane, l.turn)
	c.aim, c.known = aim, known
	c.far = known && math.Abs(c.now-aim) >= farOut*width
	c.aimAtEnd, _, _ = t.plan.Aim(lane, end)
	c.later, _, _ = t.plan.Aim(lane, later)
	c.post, _, _ = t.plan.Aim(lane, stop)
	return c
}

// fits reports whether what words ask is right now, when they have ended, and on to the next checkpoint.
func (t *Talk) fits(ask callout.Ask, words string) bool {
	l, length := t.leg, t.voice.Length(words)
	bank, nose := t.follow("bank", length), t.follow("pitch", length)
	if words == sayBankFirst { // also at the bank to aim at, where that comes off anyway: the pull has to wait for it
		return bank.then > bank.later
	}
	switch ask {
	case callout.BankMore:
		return bank.wantsMore()
	case callout.BankLess, callout.RollOut:
		return bank.wantsLess()
	case callout.RollSlower:
		return bank.now > bank.aim && bank.then > bank.aimAtEnd
	case callout.RollOutSlower:
		return bank.now < bank.aim && bank.then < bank.aimAtEnd
	case callout.NoseUp:
		if t.plan.Card.Ground.About == maneuver.Pylon {
			off, known := check.OffPivotalAt(l.Moment())
			return known && off < 0 && !t.nearStall()
		}
		if t.tooSteep(l.bank) || t.tooSteep(l.bank+l.bankRate*length) || t.nearStall() {
			return false
		}
		if nose.known {
			return nose.wantsMore()
		}
		return l.height < 0 && l.height+l.climb*(length+reach) < 0
	case callout.NoseDown:
		if t.plan.Card.Ground.About == maneuver.Pylon {
			off, known := check.OffPivotalAt(l.Moment())
			return known && off > 0
		}
		if nose.known {
			return nose.wantsLess()
		}
		return l.height > 0 && l.height+l.climb*(length+reach) > 0
	}
	return true
}

// seen is how far ahead a stall is seen coming, s: time to hear three words and to move. The speed changes steadily so
// long; the load factor does not, as a hand moves it to and fro. It is looked for within a margin, kt, that leaves out
// the speed at which a chandelle ends; nearer than creeping, kt, any loss of speed is too much (common practice, no
// source).
const (
	seen     = 2.0
	seenLoad = 0.4
	slowBy   = 12.0
	creeping = 5.0
)

// stalling reports whether the margin over the stall speed, at the load factor that is flown (it grows with its root),
// will be gone before long as speed and load change now.
func (t *Talk) stalling() bool {
	s, w, stall := &t.leg.Moment().Sample, t.leg.Rates(), t.plan.Aircraft.Stall
	margin, known := check.StallMarginAt(s, stall)
	if !known || margin > slowBy {
		return false
	}
	if margin < creeping && w.SpeedRate < 0 {
		return true
	}
	n := math.Max(s.Value(stream.NormalLoad), 0.25)
	return margin+seen*w.SpeedRate-seenLoad*stall*w.LoadRate/(2*math.Sqrt(n)) < marginStall
}

// nearStall reports whether a pull would stall the aircraft.
func (t *Talk) nearStall() bool {
	margin, known := check.StallMarginAt(&t.leg.Moment().Sample, t.plan.Aircraft.Stall)
	return known && margin < 2*marginStall
}

// tooSteep reports whether a bank is too steep for a pull.
func (t *Talk) tooSteep(bank float64) bool {
	most := steep
	if level(t.plan.Card) { // held all the way round, by back pressure
		for _, k := range t.plan.Card.Profile {
			most = max(most, k.Bank+t.plan.Card.Corridor.Bank)
		}
	}
	return math.Abs(bank) > most
}

// level reports whether a maneuver holds its height.
func level(card *maneuver.Card) bool { return card.Reference.Slowest == "level" }
