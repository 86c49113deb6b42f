package cause

import (
	"math"

	"halfturn/coach/aero"
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
			return steepAtExit(f) && !f.off("-exit-height") && untouched(f) && notChandelle(f)
		},
		say: "Raise the nose sooner",
		advice: "The nose was still low as the wings came level: begin to raise it at one thirty-five, with " +
			"the bank coming off.",
	},
	{
		id:      "power-added",
		meaning: "Power added on the way.",
		on:      []string{"+power-constant"},
		drags:   []string{"+exit-speed", "+apex-speed", "+exit-height", "+speed-held"},
		say:     "Leave the power alone",
		advice: "Power was added on the way, so you came out fast: set it before the entry and take the hand " +
			"off until level.",
	},
	{
		id:      "power-reduced",
		meaning: "Power taken off on the way.",
		on:      []string{"-power-constant"},
		drags:   []string{"-exit-speed", "-apex-speed", "-exit-height", "-speed-held", "-height-gained"},
		say:     "Leave the power alone",
		advice: "Power was taken off on the way, so you came out slow: set it before the entry and take the " +
			"hand off until level.",
	},
	{
		id:      "ends-low",
		meaning: "Came out below the entry height, in a lazy eight.",
		in:      isGentle,
		on:      []string{"-exit-height"},
		drags:   []string{"+exit-speed"},
		when:    gentle,
		say:     "Bring the nose up sooner",
		advice: "You ended below the height you began at: bring the nose up sooner and let the descent be as " +
			"shallow as the climb.",
	},
	{
		id:      "ends-high",
		meaning: "Came out above the entry height, in a lazy eight.",
		in:      isGentle,
		on:      []string{"+exit-height"},
		drags:   []string{"-exit-speed"},
		when:    gentle,
		say:     "Lower nose in descent",
		advice:  "You ended above the height you began at: let the nose down as far as it went up.",
	},
	{
		id:      "height-lost",
		meaning: "Height lost.",
		in:      isNotGentle,
		on:      []string{"-exit-height", "-height-held"},
		drags:   []string{"+exit-speed", "+speed-held"},
		when:    func(f *ledger) bool { return !gentle(f) },
		say:     "Pull out sooner",
		advice: "You ended low: bring the nose up sooner with a little more back pressure, before the wings " +
			"are level.",
		other: level(
			"More back pressure",
			"Height was lost in the turn: add back pressure as the bank comes on, and take a little bank "+
				"off if the nose still drops.",
		),
	},
	{
		id:      "height-gained",
		meaning: "Height gained that should have been given back.",
		in:      isNotGentle,
		on:      []string{"+exit-height", "+height-held"},
		drags:   []string{"-exit-speed", "-speed-held"},
		when:    func(f *ledger) bool { return !gentle(f) },
		say:     "Let the nose down further",
		advice: "You ended high: let the nose go lower in the second half and pull less until the wings are " +
			"nearly level.",
		other: level(
			"Ease the back pressure",
			"Height was gained in the turn: ease the back pressure until the nose stands still on the horizon.",
		),
	},
	{
		id:      "too-fast-at-the-end",
		meaning: "Speed left over at the end of a chandelle.",
		in:      isChandelle,
		on:      []string{"+exit-speed"},
		drags:   []string{"-height-gained", "-highest-nose"},
		when:    chandelle,
		say:     "More nose, use the speed",
		advice: "There was speed left at the end: raise the nose more in the first ninety degrees and turn " +
			"all of it into height.",
	},
	{
		id:      "too-slow-at-the-end",
		meaning: "Too slow at the end of a chandelle.",
		in:      isChandelle,
		on:      []string{"-exit-speed"},
		drags:   []string{"-no-stall"},
		when:    func(f *ledger) bool { return chandelle(f) && !f.off("+highest-nose") },
		say:     "Stop a little faster",
		advice:  "The speed ran out before the end: hold the nose a little lower from ninety degrees on.",
	},
	{
		id:      "exit-fast",
		meaning: "Came out faster than it went in, power not touched on the way.",
		in:      isNotChandelle,
		on:      []string{"+exit-speed", "+speed-held"},
		drags:   []string{"+apex-speed", "-highest-nose", "-pace"},
		when:    func(f *ledger) bool { return notChandelle(f) && untouched(f) && !traded(f) },
		say:     "Less power next time",
		advice:  "You came out fast with the power left alone: it was set too high, so set less before the entry.",
		other: level(
			"Less power in the turn",
			"The speed grew in the turn: take a little power off as soon as it passes the entry speed.",
		),
	},
	{
		id:      "exit-slow",
		meaning: "Came out slower than it went in, power not touched on the way.",
		in:      isNotChandelle,
		on:      []string{"-exit-speed", "-speed-held"},
		drags:   []string{"-apex-speed", "-pace", "-stall-margin"},
		when:    func(f *ledger) bool { return notChandelle(f) && untouched(f) && !traded(f) },
		say:     "More power next time",
		advice:  "You came out slow with the power left alone: it was set too low, so set more before the entry.",
		other: level(
			"More power in the turn",
			"The speed fell in the turn: add a little power as the bank comes on.",
		),
	},
	{
		id:      "slow-over-the-top",
		meaning: "Too slow at the top, the nose not too high.",
		on:      []string{"-apex-speed"},
		drags:   []string{"-stall-margin"},
		say:     "Pull more gently",
		advice: "The speed over the top was too low: ease the pull once the nose has passed forty-five " +
			"degrees of turn.",
	},
	{
		id:      "fast-over-the-top",
		meaning: "Too fast at the top, the nose not too low.",
		on:      []string{"+apex-speed"},
		against: []string{"nose-peak-late", "nose-late"},
		say:     "Pull more, use the speed",
		advice:  "The speed over the top was too high: let the nose stay up a little longer on the way to ninety.",
	},
	{
		id:      "little-height",
		meaning: "Little height gained in a climbing turn.",
		on:      []string{"-height-gained"},
		say:     "More nose, less bank",
		advice: "Little height came of it: raise the nose more and bank less, so that speed becomes height " +
			"and not turn.",
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

// hands are faults of coordination.
var hands = []rule{
	{
		id:      "slip-or-skid",
		meaning: "Ball out of the middle: too little rudder, or feet on the floor.",
		on:      []string{"coordination"},
		say:     "Step on the ball",
		advice: "The ball was out for much of the turn: lead each roll with the foot, and add right rudder " +
			"as the speed falls.",
	},
}
