package cause

import (
	"math"

	"halfturn/coach/aero"
	"halfturn/stream/phrase"
)

// energies are faults of speed, height and power.
var energies = []rule{
	{
		id:      "dive-not-shallowed",
		meaning: "Nose still low where the descent is to be over.",
		in:      isNotChandelle,
		on:      []string{"+exit-speed"},
		own:     []string{"-exit-height"},
		when: func(f *ledger) bool {
			return steepAtExit(f) && !f.off("-exit-height") && untouched(f)
		},
		say:    phrase.ChangeRaiseTheNoseSooner,
		advice: phrase.CorrectDiveNotShallowed,
	},
	{
		id:       "power-added",
		meaning:  "Power added on the way.",
		on:       []string{"+power-constant"},
		drags:    []string{"+exit-speed", "+apex-speed", "+exit-height", "+speed-held"},
		evidence: over,
		say:      phrase.ChangeLeaveThePowerAlone,
		advice:   phrase.CorrectPowerAdded,
	},
	{
		id:       "power-reduced",
		meaning:  "Power taken off on the way.",
		on:       []string{"-power-constant"},
		drags:    []string{"-exit-speed", "-apex-speed", "-exit-height", "-speed-held", "-height-gained"},
		evidence: short,
		say:      phrase.ChangeLeaveThePowerAlone,
		advice:   phrase.CorrectPowerReduced,
	},
	{
		id:       "ends-low",
		meaning:  "Came out below the entry height.",
		in:       isGentle,
		on:       []string{"-exit-height"},
		drags:    []string{"+exit-speed"},
		evidence: short,
		say:      phrase.ChangeBringTheNoseUpSooner,
		advice:   phrase.CorrectEndsLow,
	},
	{
		id:       "ends-high",
		meaning:  "Came out above the entry height.",
		in:       isGentle,
		on:       []string{"+exit-height"},
		drags:    []string{"-exit-speed"},
		evidence: over,
		say:      phrase.ChangeLowerNoseInDescent,
		advice:   phrase.CorrectEndsHigh,
	},
	{
		id:      "height-lost",
		meaning: "Height lost.",
		in:      isNotGentle,
		on:      []string{"-exit-height", "-height-held"},
		drags:   []string{"+exit-speed", "+speed-held"},
		// In a turn that is too steep the bank comes off first, then back pressure: the Instrument Flying Handbook's
		// order for a nose that is low (FAA-H-8083-15A p. 5-28).
		when:     func(f *ledger) bool { return !steep(f) },
		evidence: short,
		say:      phrase.ChangePullOutSooner,
		advice:   phrase.CorrectHeightLost,
		other:    level(phrase.ChangeMoreBackPressure, phrase.CorrectHeightLostLevel),
	},
	{
		id:       "height-gained",
		meaning:  "Height gained that should have been given back.",
		in:       isNotGentle,
		on:       []string{"+exit-height", "+height-held"},
		drags:    []string{"-exit-speed", "-speed-held"},
		evidence: over,
		say:      phrase.ChangeLetTheNoseDownFurther,
		advice:   phrase.CorrectHeightGained,
		other:    level(phrase.ChangeEaseTheBackPressure, phrase.CorrectHeightGainedLevel),
	},
	{
		id:       "too-fast-at-the-end",
		meaning:  "Speed left over at the end.",
		in:       isChandelle,
		on:       []string{"+exit-speed"},
		drags:    []string{"-height-gained", "-highest-nose"},
		evidence: over,
		say:      phrase.ChangeMoreNoseUseTheSpeed,
		advice:   phrase.CorrectTooFastAtTheEnd,
	},
	{
		id:       "too-slow-at-the-end",
		meaning:  "Too slow at the end.",
		in:       isChandelle,
		on:       []string{"-exit-speed"},
		drags:    []string{"-no-stall"},
		when:     func(f *ledger) bool { return !f.off("+highest-nose") },
		evidence: short,
		say:      phrase.ChangeStopALittleFaster,
		advice:   phrase.CorrectTooSlowAtTheEnd,
	},
	{
		id:       "exit-fast",
		meaning:  "Came out faster than it went in, power not touched on the way.",
		in:       isNotChandelle,
		on:       []string{"+exit-speed", "+speed-held"},
		drags:    []string{"+apex-speed", "-highest-nose", "-pace"},
		when:     func(f *ledger) bool { return untouched(f) && !traded(f) },
		evidence: over,
		say:      phrase.ChangeLessPowerNextTime,
		advice:   phrase.CorrectExitFast,
		other:    level(phrase.ChangeLessPowerInTheTurn, phrase.CorrectExitFastLevel),
	},
	{
		id:       "exit-slow",
		meaning:  "Came out slower than it went in, power not touched on the way.",
		in:       isNotChandelle,
		on:       []string{"-exit-speed", "-speed-held"},
		drags:    []string{"-apex-speed", "-pace", "-stall-margin"},
		when:     func(f *ledger) bool { return untouched(f) && !traded(f) },
		evidence: short,
		say:      phrase.ChangeMorePowerNextTime,
		advice:   phrase.CorrectExitSlow,
		other:    level(phrase.ChangeMorePowerInTheTurn, phrase.CorrectExitSlowLevel),
	},
	{
		id:      "slow-over-the-top",
		meaning: "Too slow at the top, the nose not too high.",
		on:      []string{"-apex-speed"},
		drags:   []string{"-stall-margin"},
		when:    func(f *ledger) bool { return !f.off("+highest-nose") },
		say:     phrase.ChangePullMoreGently,
		advice:  phrase.CorrectSlowOverTheTop,
	},
	{
		id:      "fast-over-the-top",
		meaning: "Too fast at the top, the nose not too low.",
		on:      []string{"+apex-speed"},
		against: []string{"nose-peak-late", "nose-late"},
		when:    func(f *ledger) bool { return !f.off("-highest-nose") },
		say:     phrase.ChangePullMoreUseTheSpeed,
		advice:  phrase.CorrectFastOverTheTop,
	},
	{
		id:       "little-height",
		meaning:  "Little height gained in a climbing turn.",
		on:       []string{"-height-gained"},
		evidence: short,
		say:      phrase.ChangeMoreNoseLessBank,
		advice:   phrase.CorrectLittleHeight,
	},
}

// steepAtExit reports whether the nose was still well below level as the wings came level.
func steepAtExit(f *ledger) bool {
	return f.leg.Exit != nil && f.leg.Exit.Values["pitch"] < f.leg.Entry.Values["pitch"]-8
}

// untouched reports whether the power was left alone, or not judged.
func untouched(f *ledger) bool { return !f.off("power-constant") }

// traded reports whether most of the speed lost or left over at the exit went into height or came from it: then the
// height is off too, and power is not to blame. Energy is v²/2 + g·h, as if airspeed were true: near enough to tell
// which of the two it is.
func traded(f *ledger) bool {
	in, out := f.leg.Entry.Values, f.leg.Exit
	if out == nil || !f.off("exit-height") {
		return false
	}
	v, u := out.Values["airspeed"]*aero.FeetPerSecond, in["airspeed"]*aero.FeetPerSecond
	speed, height := (v*v-u*u)/(2*aero.Gravity), out.Values["altitude"]-in["altitude"] // ft
	return speed*height < 0 && math.Abs(height) > math.Abs(speed)/2
}
