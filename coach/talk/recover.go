package talk

import (
	"math"

	"halfturn/coach/callout"
	"halfturn/stream"
)

// The ways back. Each names the control to move, and is right in the attitude in which it is said: the order of the
// recoveries is that of the sources.
//
//   - Stall: the angle of attack first, whatever the bank, then roll (Airplane Flying Handbook, turning stall: nose
//     down until the warning stops, then level).
//   - Nose low: power, wings level, then the nose (Instrument Flying Handbook). No pull is asked for while the wings
//     are steep: rolling and pulling together overloads one wing.
//   - Past 90° of bank: unload, then roll (Airplane Upset Recovery Training Aid).
//   - Load: less of what makes it, back pressure or push.
const (
	sayPush      = "Push, unload"
	sayEasePull  = "Ease the pull"
	sayEasePush  = "Ease the push"
	sayLessBank  = "Less bank"
	sayUnload    = "Unload, less bank"
	sayRollFirst = "Hard deck! Wings level"
	sayClimb     = "Hard deck! Nose up"
	sayPower     = "Too fast! Power back"
	sayPowerRoll = "Power back, wings level"
	sayPowerUp   = "Power back, nose up gently"
	sayBankFirst = "Less bank first" // the nose is low and the bank steep: a pull would only tighten the turn
	sayMoreBank  = "More bank"
)

// safetyAsks are what the ways back ask.
var safetyAsks = map[string][]callout.Ask{
	sayPush:      {callout.Push},
	sayEasePull:  {callout.Push},
	sayEasePush:  {callout.EasePush},
	sayLessBank:  {callout.BankLess},
	sayUnload:    {callout.Push, callout.BankLess},
	sayRollFirst: {callout.WingsLevel},
	sayClimb:     {callout.NoseUp},
	sayPower:     {callout.PowerLess},
	sayPowerRoll: {callout.PowerLess, callout.WingsLevel},
	sayPowerUp:   {callout.PowerLess, callout.NoseUp},
	sayBankFirst: {callout.BankLess},
	sayMoreBank:  {callout.BankMore},
}

// SafetyAsks returns what the words of a limit, or those that stand in for a watch, ask of the pilot.
func SafetyAsks(words string) []callout.Ask { return safetyAsks[words] }

// nearLevel is the bank up to which a pull raises the nose, °: past it the bank comes off first (common practice, no
// source; the sources give no number below 45).
const nearLevel = 30.0

func bankOf(s *stream.Sample) float64 { return math.Abs(s.Value(stream.Bank)) }

// push is the way out of a stall.
func push(*stream.Sample) string { return sayPush }

// unload is the way back from a load.
func unload(s *stream.Sample) string {
	if s.Value(stream.NormalLoad) < 0 {
		return sayEasePush
	}
	return sayEasePull
}

// levelOff is the way back from a bank.
func levelOff(s *stream.Sample) string {
	if bankOf(s) > 90 {
		return sayUnload
	}
	return sayLessBank
}

// climb is the way up from the hard deck.
func climb(s *stream.Sample) string {
	if bankOf(s) > nearLevel {
		return sayRollFirst
	}
	return sayClimb
}

// slow is the way back from too high a speed.
func slow(s *stream.Sample) string {
	switch {
	case s.Value(stream.Pitch) >= 0:
		return sayPower
	case bankOf(s) > nearLevel:
		return sayPowerRoll
	}
	return sayPowerUp
}
