package debrief

import (
	"math"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/maneuver"
)

// legRules are the causes of a leg, roots before what follows from them. What drags what is
// flight mechanics: speed and height trade (v²/2 + g·h), the turn rate is g·tan(bank)/v, and a
// bank past what lift can carry lets the nose fall. Which fault is named for it follows the
// common errors of the handbooks (FAA-H-8083-3C ch. 10; CNATRA P-1212 p. 33) and common practice.
var legRules = slices.Concat(endings, entries, rhythm, banks, noses, rollOuts, energies, hands)

var endings = []rule{
	{id: "abandoned", meaning: "The turn was given up before it was done.",
		when: func(f *flown) bool { return f.leg.Outcome == coach.BrokenOff }, told: stopped,
		say: "Finish the turn", advice: "The turn was given up on the way: decide before the pull, then fly it through to level wings on the heading.",
		other: level("Finish the turn", "The turn was given up on the way: fly it through to level wings on the heading.")},
	{id: "below-hard-deck", meaning: "The aircraft came below the lowest height allowed.",
		on: []string{"exit-heading"}, when: func(f *flown) bool { return stoppedBy(f, "deck") }, told: stopped,
		say: "Start higher", advice: "It was stopped at the hard deck: start higher, and break off yourself before you reach it."},
	{id: "limit-passed", meaning: "A limit of the aircraft was passed: speed, load or bank.",
		on: []string{"exit-heading"}, when: func(f *flown) bool { return stoppedBy(f, "") }, told: stopped,
		say: "Stay inside the limits", advice: "A limit of the aircraft was passed: ease the controls early, and watch speed and load in the descent."},
	{id: "stalled", meaning: "The wing stalled, or came to the edge of it.",
		on: []string{"no-stall", "stall-margin"}, own: []string{"-exit-heading"}, drags: []string{"-apex-speed", "-exit-speed"}, told: stopped,
		when: func(f *flown) bool { return stoppedBy(f, "stall") || f.missed("no-stall") || f.missed("stall-margin") },
		say:  "Ease the back pressure", advice: "The wing ran out of lift: ease the back pressure as soon as the controls go soft, and bring the nose up less."},
}

// stoppedBy tells whether a leg was knocked off for a reason; "" is any but deck and stall.
func stoppedBy(f *flown, word string) bool {
	if f.leg.Outcome != coach.KnockOff {
		return false
	}
	if word != "" {
		return strings.Contains(f.leg.Reason, word)
	}
	return !strings.Contains(f.leg.Reason, "deck") && !strings.Contains(f.leg.Reason, "stall")
}

var entries = []rule{
	{id: "not-stabilized", meaning: "Two or more of speed, level flight and level wings were wrong before the entry.",
		on: []string{"entry-speed", "entry-height-held", "entry-level"}, drags: []string{"apex-speed", "-stall-margin"}, when: unstable,
		say: "Settle down before entry", advice: "More than one thing was moving at the entry: hold height, speed and level wings for five seconds, then begin."},
	{id: "entry-slow", meaning: "Entry speed too low.",
		on: []string{"-entry-speed"}, drags: []string{"-apex-speed", "-stall-margin", "-no-stall", "-pace", "-exit-speed", "-height-gained"},
		when: func(f *flown) bool { return !unstable(f) },
		say:  "Wait for entry speed", advice: "You began too slow, so there was too little speed for the climb: wait for the entry speed before you pull.",
		other: level("Wait for entry speed", "You began too slow: wait for the entry speed before you roll in.")},
	{id: "entry-fast", meaning: "Entry speed too high.",
		on: []string{"+entry-speed"}, drags: []string{"+apex-speed", "+pace", "+exit-speed"}, when: func(f *flown) bool { return !unstable(f) },
		say: "Slow down before entry", advice: "You began too fast, so the whole turn ran fast: settle on the entry speed before you pull.",
		other: level("Slow down before entry", "You began too fast: settle on the entry speed before you roll in.")},
	{id: "entry-descending", meaning: "Descending before the entry.",
		on: []string{"-entry-height-held"}, when: func(f *flown) bool { return !unstable(f) },
		say: "Start from level flight", advice: "You were descending when you began: hold the height for five seconds, then pull.",
		other: level("Start from level flight", "You were descending when you began: hold the height for five seconds, then roll in.")},
	{id: "entry-climbing", meaning: "Climbing before the entry.",
		on: []string{"+entry-height-held"}, when: func(f *flown) bool { return !unstable(f) },
		say: "Start from level flight", advice: "You were climbing when you began: hold the height for five seconds, then pull.",
		other: level("Start from level flight", "You were climbing when you began: hold the height for five seconds, then roll in.")},
	{id: "entry-banked", meaning: "Wings not level before the entry.",
		on: []string{"entry-level"}, when: func(f *flown) bool { return !unstable(f) },
		say: "Start with wings level", advice: "The wings were not level when you began: level them on the line, then pull.",
		other: level("Start with wings level", "The wings were not level when you began: level them on the line, then roll in.")},
}

// unstable tells whether two of the set-up's three were missed.
func unstable(f *flown) bool {
	n := 0
	for _, id := range []string{"entry-speed", "entry-height-held", "entry-level"} {
		if f.missed(id) {
			n++
		}
	}
	return n >= 2
}

var rhythm = []rule{
	{id: "rushed", meaning: "The whole turn was flown too quickly.",
		on: []string{"-pace"}, own: []string{"+bank-at-45", "+bank-at-135"}, told: quicker,
		drags: []string{"+apex-speed", "-highest-nose", "roll-evenness", "nose-at-90", "steepest-bank-at", "roll-out-start", "+exit-speed"},
		when: func(f *flown) bool {
			steep := f.off("+bank-at-45") || f.off("+bank-at-135") || f.off("+apex-speed")
			return steep && !f.off("+highest-nose") && !f.off("+bank-at-90") && !f.off("+steepest-bank") && !f.missed("-apex-speed")
		},
		say: "Slower, do not rush", advice: "The turn was rushed: roll in and out at half that rate, and let the nose climb before the bank grows."},
	{id: "dragged", meaning: "The whole turn was flown too slowly.",
		on: []string{"+pace"}, own: []string{"-bank-at-45", "-bank-at-135"}, drags: []string{"-apex-speed", "-exit-speed"}, told: quicker,
		when: func(f *flown) bool { return !f.off("-steepest-bank") && !f.off("-bank-at-90") },
		say:  "A little quicker", advice: "The turn dragged on: keep the bank growing steadily, so that the nose comes round in time."},
}

// turned tells that the place of the steepest bank was right, or was not judged.
func turned(f *flown) bool { return !f.off("steepest-bank-at") }

var banks = []rule{
	{id: "bank-grows", in: holdsBank, meaning: "Bank grew where it is to be held.",
		on: []string{"+bank-at-90", "+bank-held", "+steepest-bank"}, drags: []string{"+bank-at-135", "+roll-out-start", "-height-gained", "-height-held"}, told: growth,
		when: func(f *flown) bool { return f.checks["bank-held"] != nil && grew(f) > 6 && !f.off("-bank-held") },
		say:  "Keep the bank from growing", advice: "The bank went on growing after it was set: hold it with opposite aileron, it wants to steepen by itself."},
	{id: "bank-falls-off", in: holdsBank, meaning: "Bank came off where it is to be held.",
		on: []string{"-bank-at-90", "-shallowest-bank", "-roll-out-start"}, own: []string{"-bank-held"}, told: growth,
		when: func(f *flown) bool {
			return f.checks["bank-held"] != nil && (grew(f) < -4 || f.off("-shallowest-bank") && !f.off("-bank-held"))
		},
		say: "Keep the bank on", advice: "The bank came off too soon: look at the wing against the horizon and hold it where it was."},
	{id: "overbanked", meaning: "Too much bank.",
		on:    []string{"+bank-at-90", "+steepest-bank", "+bank-held"},
		drags: []string{"-nose-at-90", "+bank-at-45", "+bank-at-135", "roll-evenness", "-pace", "-exit-height", "+exit-speed", "-height-held", "-speed-held", "-height-gained", "roll-out-start", "apex-speed"},
		say:   "Less bank", advice: "The bank went too far, and past it the nose falls through: stop the roll earlier and look for the horizon across the nose.",
		other: level("Less bank", "The bank was too steep: take a little off, and check it against the horizon before the nose drops.")},
	{id: "underbanked", meaning: "Too little bank.",
		on: []string{"-bank-at-90", "-steepest-bank", "-bank-held"}, own: []string{"-shallowest-bank"},
		drags: []string{"-bank-at-45", "-bank-at-135", "-highest-nose", "+pace", "apex-speed", "roll-evenness", "steepest-bank-at", "roll-out-start"},
		when: func(f *flown) bool {
			return f.off("-steepest-bank") || f.off("-bank-held") || f.checks["bank-held"] == nil && turned(f)
		},
		say: "More bank", advice: "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round.",
		other: level("More bank", "The bank was too shallow: roll on to the bank wanted and hold it there against the horizon.")},
	{id: "roll-out-quick", meaning: "Bank held too long, then taken off in a hurry.",
		on: []string{"-roll-evenness"}, own: []string{"+roll-out-start", "+bank-at-135"}, drags: []string{"+steepest-bank-at", "highest-nose"},
		when: func(f *flown) bool { return !f.missed("+steepest-bank-at") && !f.off("+steepest-bank") },
		say:  "Roll out slower", advice: "The bank was held too long and then came off in a hurry: start just past ninety and take it off as slowly as it came on."},
	{id: "roll-in-quick", meaning: "Bank put on faster than it was taken off.",
		on: []string{"+roll-evenness"}, drags: []string{"+bank-at-45", "-highest-nose-at"}, when: turned,
		say: "Roll in slower", advice: "The bank came on faster than it went off: roll in with one slow, even pressure."},
	{id: "bank-peak-early", meaning: "Steepest bank before the middle of the turn.",
		on: []string{"-steepest-bank-at"}, own: []string{"-roll-out-start"},
		drags: []string{"+bank-at-45", "-bank-at-90", "-bank-at-135", "+roll-evenness", "nose-at-90"}, when: func(f *flown) bool { return !f.missed("-steepest-bank") },
		say: "Keep rolling to ninety", advice: "The bank was steepest too early and came off before the nose was round: roll slower and keep rolling to ninety degrees of turn."},
	{id: "bank-peak-late", meaning: "Steepest bank after the middle of the turn.",
		on: []string{"+steepest-bank-at"}, own: []string{"+roll-out-start"},
		drags: []string{"-bank-at-45", "-bank-at-90", "+bank-at-135", "-roll-evenness", "nose-at-90"},
		say:   "Steepest bank at ninety", advice: "The bank was steepest too late: have it all by ninety degrees of turn, then begin at once to take it off."},
	{id: "bank-leads", meaning: "Bank ahead of the turn.",
		on: []string{"+bank-at-45", "-bank-at-135"}, drags: []string{"-highest-nose-at", "-roll-out-start"},
		when: func(f *flown) bool { return !f.missed("+steepest-bank") && !f.off("-steepest-bank") },
		say:  "Roll slower, nose first", advice: "The bank was ahead of the turn: let the nose climb first, and give half the bank at forty-five and again at one thirty-five."},
	{id: "bank-lags", meaning: "Bank behind the turn.",
		on: []string{"-bank-at-45", "+bank-at-135"}, drags: []string{"+highest-nose-at", "+roll-out-start"},
		when:    func(f *flown) bool { return !f.missed("+steepest-bank") && !f.off("-steepest-bank") },
		against: []string{"bank-leads"},
		say:     "Keep the bank coming", advice: "The bank was behind the turn: begin to roll with the pull, and be half way out again at one thirty-five."},
}

var noses = []rule{
	{id: "nose-too-high", meaning: "Nose too high in the climb.",
		on: []string{"+highest-nose"}, drags: []string{"-apex-speed", "-stall-margin", "-no-stall", "-pace", "-exit-speed", "+nose-at-90", "+exit-height", "+nose-not-sinking", "+nose-only-rises"}, told: climbing,
		say: "Pull more gently", advice: "The nose went too high, so the speed ran out over the top: pull more gently and stop the nose lower.",
		other: climb("Pull more gently", "The nose went too high, so the speed ran out before the wings were level: pull more gently, and keep speed to hold the nose up to the end.")},
	{id: "nose-too-low", meaning: "Nose too low in the climb.",
		on: []string{"-highest-nose"}, drags: []string{"+apex-speed", "+exit-speed", "-height-gained", "-nose-at-90"}, told: climbing,
		say: "Pull the nose higher", advice: "The nose stayed too low, so the speed was never used: pull a little more in the first forty-five degrees."},
	{id: "nose-peak-early", meaning: "Nose highest too early: pulled too fast.",
		on: []string{"-highest-nose-at"}, drags: []string{"-apex-speed", "-stall-margin", "-nose-at-90"}, told: climbing,
		say: "Roll in with the pull", advice: "The nose was highest too early: pull more slowly and let it rise until forty-five degrees of turn."},
	{id: "nose-peak-late", meaning: "Nose highest too late: still being pulled up when it should come down.",
		on: []string{"+highest-nose-at"}, own: []string{"+nose-at-90"}, drags: []string{"+highest-nose", "-apex-speed", "+exit-height", "-exit-speed"}, told: climbing,
		say: "Nose highest by forty-five", advice: "You kept pulling too long: have the nose highest at forty-five degrees of turn, then let the bank bring it down."},
	{id: "nose-late", meaning: "Nose came down through the horizon too late.",
		on: []string{"+nose-at-90"}, drags: []string{"-apex-speed", "+exit-height", "-exit-speed"},
		say: "Let the nose drop sooner", advice: "The nose was still up at ninety: ease the pull after forty-five degrees and let it fall through the horizon at ninety."},
	{id: "nose-early", meaning: "Nose came down through the horizon too early.",
		on: []string{"-nose-at-90"}, drags: []string{"+exit-speed", "-exit-height"},
		say: "Hold the nose up longer", advice: "The nose was already down at ninety: keep a little back pressure until it passes the horizon there."},
	{id: "nose-dropped", meaning: "Nose sank where it is to be held up.",
		on: []string{"+nose-not-sinking", "+nose-only-rises"}, drags: []string{"+exit-speed", "-height-gained", "-highest-nose"},
		when: func(f *flown) bool { return !f.off("+highest-nose") }, // one that was too high must come down
		say:  "Hold the nose up", advice: "The nose sank in the roll-out: it takes more back pressure as the speed falls, so hold the picture until the wings are level."},
	{id: "nose-still-rising", meaning: "Nose raised where it is to be held.",
		on: []string{"+nose-not-rising"}, drags: []string{"+highest-nose", "-exit-speed", "-no-stall"},
		against: []string{"nose-dropped"},
		say:     "Hold the nose, no higher", advice: "The nose went on rising in the roll-out: stop it at ninety degrees of turn and hold it there."},
}

func chandelle(f *flown) bool {
	return f.checks["nose-not-sinking"] != nil || f.checks["nose-only-rises"] != nil
}
func notChandelle(f *flown) bool { return !chandelle(f) }

func finished(f *flown) bool { return f.leg.Outcome == coach.Finished }

// level gives the words for a steep turn, in which height and airspeed are held.
func level(say, advice string) map[string][2]string {
	return map[string][2]string{"steep-turn": {say, advice}, "steep-turn-45": {say, advice}, "clearing-turns": {say, advice}}
}

// climb gives the words for a chandelle, which ends with the nose up.
func climb(say, advice string) map[string][2]string {
	return map[string][2]string{"chandelle-civil": {say, advice}, "chandelle-traditional": {say, advice}}
}

func isChandelle(c *maneuver.Card) bool {
	return c.Has("nose-not-sinking") || c.Has("nose-only-rises")
}
func isNotChandelle(c *maneuver.Card) bool { return !isChandelle(c) }
func holdsBank(c *maneuver.Card) bool {
	return c.Has("bank-held")
}
func isGentle(c *maneuver.Card) bool    { return c.Name == "lazy-eight" }
func isNotGentle(c *maneuver.Card) bool { return !isGentle(c) }

var rollOuts = []rule{
	{id: "level-before-180", in: isChandelle, meaning: "Wings level before the half turn was done, in a chandelle.",
		on: []string{"-exit-heading"}, drags: []string{"-bank-at-135", "-roll-out-start", "+exit-speed", "roll-evenness", "-steepest-bank-at"},
		when: func(f *flown) bool { return chandelle(f) && finished(f) },
		say:  "Bank off more slowly", advice: "The wings were level before the heading: take the bank off so slowly that the last of it goes as the heading comes."},
	{id: "rolled-out-early", in: isNotChandelle, meaning: "Rolled out before the heading.",
		on: []string{"-exit-heading"}, drags: []string{"-bank-at-135", "-roll-out-start", "+exit-height", "-exit-speed", "roll-evenness", "-pace"},
		when: func(f *flown) bool { return notChandelle(f) && finished(f) },
		say:  "Hold the turn longer", advice: "You rolled out before the heading: look for the reference point over the wing, and hold some bank until it is there."},
	{id: "rolled-out-late", meaning: "Rolled out after the heading: overshoot.",
		on: []string{"+exit-heading"}, drags: []string{"+bank-at-135", "+roll-out-start", "+pace", "-exit-height", "+exit-speed", "roll-evenness"},
		say: "Start the roll-out sooner", advice: "You turned past the heading: start the roll-out sooner, so that half the bank is off with forty-five degrees to go.",
		// The lead is half the bank: FAA-H-8083-3C p. 10-3.
		other: level("Start the roll-out sooner", "You turned past the heading: start the roll-out when the degrees to go are half the bank.")},
	{id: "roll-out-begun-early", meaning: "Roll-out begun too early.",
		on: []string{"-roll-out-start"}, drags: []string{"-bank-at-135", "-bank-at-90"}, when: turned,
		say: "Hold the bank to ninety", advice: "The roll-out began too early: hold the bank until the nose has passed ninety degrees of turn."},
	{id: "roll-out-begun-late", meaning: "Roll-out begun too late.",
		on: []string{"+roll-out-start"}, drags: []string{"+bank-at-135"}, when: turned,
		say: "Start rolling out at ninety", advice: "The roll-out began too late: begin to take the bank off as the nose passes ninety degrees of turn."},
}

// steepAtExit tells whether the nose was still well below level as the wings came level.
func steepAtExit(f *flown) bool {
	return f.leg.Exit != nil && f.leg.Exit.Values["pitch"] < f.leg.Entry.Values["pitch"]-8
}

func untouched(f *flown) bool { return !f.off("power-constant") }

// traded tells whether most of the speed lost or left at the exit is in the height there, which is off too: no power is to blame for that.
// Energy is v²/2 + g·h, as if airspeed were true: near enough to tell which of the two it is.
func traded(f *flown) bool {
	in, out := f.leg.Entry.Values, f.leg.Exit
	if out == nil || !f.off("exit-height") {
		return false
	}
	v, u := out.Values["airspeed"]*aero.FeetPerSecond, in["airspeed"]*aero.FeetPerSecond
	speed, height := (v*v-u*u)/(2*aero.Gravity), out.Values["altitude"]-in["altitude"] // ft
	return speed*height < 0 && math.Abs(height) > math.Abs(speed)/2
}

var energies = []rule{
	{id: "dive-not-shallowed", in: isNotChandelle, meaning: "Nose still low where the descent is to be over.",
		on: []string{"+exit-speed"}, own: []string{"-exit-height"}, when: func(f *flown) bool {
			return steepAtExit(f) && !f.off("-exit-height") && untouched(f) && notChandelle(f)
		},
		say: "Raise the nose sooner", advice: "The nose was still low as the wings came level: begin to raise it at one thirty-five, with the bank coming off."},
	{id: "power-added", meaning: "Power added on the way.",
		on: []string{"+power-constant"}, drags: []string{"+exit-speed", "+apex-speed", "+exit-height", "+speed-held"},
		say: "Leave the power alone", advice: "Power was added on the way, so you came out fast: set it before the entry and take the hand off until level."},
	{id: "power-reduced", meaning: "Power taken off on the way.",
		on: []string{"-power-constant"}, drags: []string{"-exit-speed", "-apex-speed", "-exit-height", "-speed-held", "-height-gained"},
		say: "Leave the power alone", advice: "Power was taken off on the way, so you came out slow: set it before the entry and take the hand off until level."},
	{id: "ends-low", in: isGentle, meaning: "Came out below the entry height, in a lazy eight.",
		on: []string{"-exit-height"}, drags: []string{"+exit-speed"}, when: gentle,
		say: "Bring the nose up sooner", advice: "You ended below the height you began at: bring the nose up sooner and let the descent be as shallow as the climb."},
	{id: "ends-high", in: isGentle, meaning: "Came out above the entry height, in a lazy eight.",
		on: []string{"+exit-height"}, drags: []string{"-exit-speed"}, when: gentle,
		say: "Lower nose in descent", advice: "You ended above the height you began at: let the nose down as far as it went up."},
	{id: "height-lost", in: isNotGentle, meaning: "Height lost.",
		on: []string{"-exit-height", "-height-held"}, drags: []string{"+exit-speed", "+speed-held"}, when: func(f *flown) bool { return !gentle(f) },
		say: "Pull out sooner", advice: "You ended low: bring the nose up sooner with a little more back pressure, before the wings are level.",
		other: level("More back pressure", "Height was lost in the turn: add back pressure as the bank comes on, and take a little bank off if the nose still drops.")},
	{id: "height-gained", in: isNotGentle, meaning: "Height gained that should have been given back.",
		on: []string{"+exit-height", "+height-held"}, drags: []string{"-exit-speed", "-speed-held"}, when: func(f *flown) bool { return !gentle(f) },
		say: "Let the nose down further", advice: "You ended high: let the nose go lower in the second half and pull less until the wings are nearly level.",
		other: level("Ease the back pressure", "Height was gained in the turn: ease the back pressure until the nose stands still on the horizon.")},
	{id: "too-fast-at-the-end", in: isChandelle, meaning: "Speed left over at the end of a chandelle.",
		on: []string{"+exit-speed"}, drags: []string{"-height-gained", "-highest-nose"}, when: chandelle,
		say: "More nose, use the speed", advice: "There was speed left at the end: raise the nose more in the first ninety degrees and turn all of it into height."},
	{id: "too-slow-at-the-end", in: isChandelle, meaning: "Too slow at the end of a chandelle.",
		on: []string{"-exit-speed"}, drags: []string{"-no-stall"}, when: func(f *flown) bool { return chandelle(f) && !f.off("+highest-nose") },
		say: "Stop a little faster", advice: "The speed ran out before the end: hold the nose a little lower from ninety degrees on."},
	{id: "exit-fast", in: isNotChandelle, meaning: "Came out faster than it went in, power not touched on the way.",
		on: []string{"+exit-speed", "+speed-held"}, drags: []string{"+apex-speed", "-highest-nose", "-pace"}, when: func(f *flown) bool { return notChandelle(f) && untouched(f) && !traded(f) },
		say: "Less power next time", advice: "You came out fast with the power left alone: it was set too high, so set less before the entry.",
		other: level("Less power in the turn", "The speed grew in the turn: take a little power off as soon as it passes the entry speed.")},
	{id: "exit-slow", in: isNotChandelle, meaning: "Came out slower than it went in, power not touched on the way.",
		on: []string{"-exit-speed", "-speed-held"}, drags: []string{"-apex-speed", "-pace", "-stall-margin"}, when: func(f *flown) bool { return notChandelle(f) && untouched(f) && !traded(f) },
		say: "More power next time", advice: "You came out slow with the power left alone: it was set too low, so set more before the entry.",
		other: level("More power in the turn", "The speed fell in the turn: add a little power as the bank comes on.")},
	{id: "slow-over-the-top", meaning: "Too slow at the top, the nose not too high.",
		on: []string{"-apex-speed"}, drags: []string{"-stall-margin"},
		say: "Pull more gently", advice: "The speed over the top was too low: ease the pull once the nose has passed forty-five degrees of turn."},
	{id: "fast-over-the-top", meaning: "Too fast at the top, the nose not too low.",
		on: []string{"+apex-speed"}, against: []string{"nose-peak-late", "nose-late"}, say: "Pull more, use the speed",
		advice: "The speed over the top was too high: let the nose stay up a little longer on the way to ninety."},
	{id: "little-height", meaning: "Little height gained in a climbing turn.",
		on: []string{"-height-gained"}, say: "More nose, less bank",
		advice: "Little height came of it: raise the nose more and bank less, so that speed becomes height and not turn."},
}

// gentle tells a lazy eight: its banks are shallow by its card.
func gentle(f *flown) bool {
	return f.plan != nil && f.plan.Card != nil && isGentle(f.plan.Card)
}

var hands = []rule{
	{id: "slip-or-skid", meaning: "Ball out of the middle: too little rudder, or feet on the floor.",
		on: []string{"coordination"}, say: "Step on the ball",
		advice: "The ball was out for much of the turn: lead each roll with the foot, and add right rudder as the speed falls."},
}
