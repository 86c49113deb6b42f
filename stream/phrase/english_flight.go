package phrase

// Why a leg ended, or counts for nothing.
var (
	TurnedBack      = table.define("end.turned-back", "turned back")
	TookTooLong     = table.define("end.took-too-long", "took longer than the card allows")
	RolledLevel     = table.define("end.rolled-level", "rolled level short of the turn")
	Stalled         = table.define("end.stalled", "stalled")
	NearStall       = table.define("end.near-stall", "near the stall, and no push after two calls")
	BelowDeck       = table.define("end.below-deck", "below the hard deck")
	OverSpeed       = table.define("end.over-speed", "over the never-exceed airspeed")
	OverLoad        = table.define("end.over-load", "over the load factor limit")
	OverBank        = table.define("end.over-bank", "over the bank limit")
	StoppedOnWord   = table.define("end.knocked-off", "knocked off on request")
	StoppedOnWordOf = table.define("end.knocked-off-by", "knocked off by {by:words}")
	ChoiceChanged   = table.define("end.choice-changed", "another maneuver or aircraft was chosen")
	SessionEnded    = table.define("end.session-ended", "the session ended")
	FaultEnded      = table.define("end.fault", "a fault in the program ended the session")
	RecordingEnded  = table.define("end.recording-ended", "the recording ended")
	FitsNoManeuver  = table.define("end.fits-no-maneuver", "it fits no maneuver clearly")
)

// Why a check was not measured.
var (
	NoExit        = table.define("none.exit", "there was no exit")
	NotReached    = table.define("none.not-reached", "the turn did not reach {turn:number}")
	NotPassed     = table.define("none.not-passed", "{what:phrase} did not pass {value:number} in the span")
	NoLastQuarter = table.define("none.last-quarter", "the turn did not reach its last quarter")
	NoTime        = table.define("none.no-time", "a quarter of the turn took no time")
	NotOnEveryLeg = table.define("none.not-on-every-leg", "not measured on every leg")
	TooFewLegs    = table.define("none.too-few-legs", "the series has too few finished legs")
	TooShort      = table.define("none.too-short", "the leg is too short to tell how smooth it is")
	HardlyMoved   = table.define("none.hardly-moved", "{what:phrase} hardly moved")
	EndedEarly    = table.define("none.ended-early", "it was ended before the rest could be flown")
	NoRolls       = table.define("none.no-rolls", "there was no roll-in and roll-out")
	NoLevelFlight = table.define("none.no-level-flight", "no level flight came before")
	NoPath        = table.define("none.no-path", "there is no reference path: it needs an aircraft card")
	NoRecovery    = table.define("none.no-recovery", "the flight after the exit was not seen")
	NoWind        = table.define("none.no-wind", "the wind before it is not known")
	NoClearing    = table.define("none.no-clearing",
		"the flight before was followed for less than the three minutes in which clearing turns count")
	NotLevel     = table.define("none.not-level", "stopped before the wings were level")
	FollowedTo   = table.define("none.followed-to", "the turn was followed to {turn:number} only")
	Hole         = table.define("none.hole", "the stream has a hole from {from:number} to {to:number} of the turn")
	Lacks        = table.define("none.lacks", "the stream has no {what:phrase}")
	LackedThere  = table.define("none.lacked-there", "the stream had no {what:phrase} there")
	NoEntrySpeed = table.define("none.no-entry-speed", "the aircraft card gives no entry speed")
	NoApexSpeed  = table.define("none.no-apex-speed", "the aircraft card gives no apex speed")
	NoStallSpeed = table.define("none.no-stall-speed", "the aircraft card gives no stall speed")
	NoNose       = table.define("none.no-nose",
		"the highest nose follows from the aircraft card's entry and apex speeds")
	NoSpot   = table.define("none.no-spot", "too little of the turn was flown to find the point it was flown about")
	NotMeant = table.define("none.not-meant", "it is not known which turn was meant")
	NoDive   = table.define("none.no-dive",
		"the lowest nose follows from the aircraft card's entry and apex speeds")
	NoTrack = table.define("none.no-track",
		"without heading and airspeed there is no way over the ground to draw")
	NothingOfLeg = table.define("none.nothing-of-leg", "the recording has nothing of this leg")
)

// More about what was measured.
var (
	Quarters = table.define("note.quarters", "the quarters of the turn took {first:number}, {second:number}, "+
		"{third:number} and {fourth:number} % of the time")
	BallRight = table.define("note.ball-right",
		"worst at {turn:number}: {motion:phrase}, the ball {widths:phrase} to the right; more right rudder")
	BallLeft = table.define("note.ball-left",
		"worst at {turn:number}: {motion:phrase}, the ball {widths:phrase} to the left; more left rudder")
	Propeller = table.define("note.propeller", "{ball:phrase}. {propeller:phrase}")

	Skid          = table.define("ball.skid", "skid")
	Slip          = table.define("ball.slip", "slip")
	QuarterWidth  = table.define("ball.quarter", "a quarter of its width")
	HalfWidth     = table.define("ball.half", "half its width")
	ThreeQuarters = table.define("ball.three-quarters", "three quarters of its width")
	OneWidth      = table.define("ball.width", "its width")
	Widths        = table.define("ball.widths", "{widths:number} widths")

	EaseRight = table.define("propeller.ease-right", "Ease the right rudder held against the propeller first")
	EaseLeft  = table.define("propeller.ease-left", "Ease the left rudder held against the propeller first")
	OutRight  = table.define("propeller.out-right", "Rolling out of this side takes a lot of right rudder: "+
		"the propeller pulls the other way, most when slow")
	OutLeft = table.define("propeller.out-left", "Rolling out of this side takes a lot of left rudder: "+
		"the propeller pulls the other way, most when slow")
	AlsoRight = table.define("propeller.also-right",
		"The propeller asks for right rudder as the speed falls, also in this turn")
	AlsoLeft = table.define("propeller.also-left",
		"The propeller asks for left rudder as the speed falls, also in this turn")
	MoreRight = table.define("propeller.more-right",
		"The propeller asks for more right rudder as the speed falls, most in climbing turns to the right")
	MoreLeft = table.define("propeller.more-left",
		"The propeller asks for more left rudder as the speed falls, most in climbing turns to the left")
)

// What a series lacks.
var (
	LegsFinished    = table.define("series.finished", "{done:number} of {legs:number} legs finished")
	OneToRight      = table.define("series.one-right", "one to the right is missing")
	OneToLeft       = table.define("series.one-left", "one to the left is missing")
	MoreToRight     = table.define("series.more-right", "{legs:number} to the right are missing")
	MoreToLeft      = table.define("series.more-left", "{legs:number} to the left are missing")
	TooShallowRight = table.define("series.too-shallow-right", "the turn to the right was too shallow to count")
	TooShallowLeft  = table.define("series.too-shallow-left", "the turn to the left was too shallow to count")
)

// andThen joins phrases.
var andThen = table.define("list.and-then", "{first:phrase}, {rest:phrase}")

// Joined returns phrases as one, with commas between them; none is the zero value.
func Joined(all ...Phrase) Phrase { return join(andThen, all) }

// join puts phrases together by a sentence of a first one and the rest.
func join(by *Definition, all []Phrase) Phrase {
	switch len(all) {
	case 0:
		return Phrase{}
	case 1:
		return all[0]
	}
	return by.Of(Part("first", all[0]), Part("rest", join(by, all[1:])))
}
