package phrase

// What to change in what is flown about a point on the ground, at most five words: it is also spoken.
var (
	ChangeVaryBankForTheWind    = table.define("change.vary-bank-for-the-wind", "Vary bank for the wind")
	ChangeKeepOneDistance       = table.define("change.keep-one-distance", "Keep one distance")
	ChangeHoldTheAirspeed       = table.define("change.hold-the-airspeed", "Hold the airspeed")
	ChangeRaiseTheNoseALittle   = table.define("change.raise-the-nose-a-little", "Raise the nose a little")
	ChangeLowerTheNoseALittle   = table.define("change.lower-the-nose-a-little", "Lower the nose a little")
	ChangeFlyThreeWholeTurns    = table.define("change.fly-three-whole-turns", "Fly three whole turns")
	ChangeFlyAWiderCircle       = table.define("change.fly-a-wider-circle", "Fly a wider circle")
	ChangePowerAtIdle           = table.define("change.power-at-idle", "Power at idle")
	ChangeFollowPivotalAltitude = table.define("change.follow-pivotal-altitude", "Follow the pivotal altitude")
	ChangeFlyLower              = table.define("change.fly-lower", "Fly lower")
	ChangeFlyHigher             = table.define("change.fly-higher", "Fly higher")
	ChangeFartherFromThePylon   = table.define("change.farther-from-the-pylon", "Farther from the pylon")
	ChangeTurnIntoTheWind       = table.define("change.turn-into-the-wind", "Turn into the wind")
	ChangeAllowForDrift         = table.define("change.allow-for-drift", "Allow for drift between pylons")
	ChangeOneDistanceFromBoth   = table.define("change.one-distance-from-both", "One distance from both pylons")
	ChangeRollInLater           = table.define("change.roll-in-later", "Roll in later")
	ChangeRollInEarlier         = table.define("change.roll-in-earlier", "Roll in earlier")
	ChangeKeepThePylonOnTheWing = table.define("change.keep-the-pylon-on-the-wing", "Pylon stays on the wing")
)

// What shows it.
var (
	WindWas   = table.define("evidence.wind", "The wind was {speed:number} from {from:number}")
	WindOutOf = table.define("evidence.wind-out-of", "{speed:number} of wind came from the other side")
	DriftWas  = table.define("evidence.drift", "{speed:number} of wind came across the line between the pylons")
	WentBy    = table.define("evidence.pivotal",
		"The pivotal altitude moved by {pivotal:number}, the height by {height:number}")
)

// What to do about it: the fact first.
var (
	CorrectBankConstant = table.define("correct.bank-constant",
		"The circle did not stay about its point: bank more where the wind is behind you and less where it is ahead, "+
			"a little before the distance changes.")
	CorrectDistanceWanders = table.define("correct.distance-wanders",
		"The distance from the point changed: more bank as soon as it grows, less as it shrinks, and the same "+
			"airspeed all the way.")
	CorrectAirspeedWanders = table.define("correct.airspeed-wanders",
		"The airspeed went up and down: lead with the nose when the bank changes, wait for the airspeed to settle, "+
			"and make small corrections.")
	CorrectAirspeedFast = table.define("correct.airspeed-fast",
		"The airspeed grew in the spiral: raise the nose a little as the bank comes on, and hold that picture.")
	CorrectAirspeedSlow = table.define("correct.airspeed-slow",
		"The airspeed fell in the spiral: let the nose down as the bank comes on, and hold that picture.")
	CorrectTooFewTurns = table.define("correct.too-few-turns",
		"There were fewer than three turns: count them by the entry heading, and start high enough for three.")
	CorrectCircleTooSmall = table.define("correct.circle-too-small",
		"The bank went past sixty degrees: fly a wider circle, so that what the wind asks for downwind stays below "+
			"that.")
	CorrectPowerNotIdle = table.define("correct.power-not-idle",
		"Power was carried in the spiral: close the throttle before the roll-in, and open it only to clear the engine.")
	CorrectAltitudeConstant = table.define("correct.altitude-constant",
		"The height stayed the same while the ground speed changed: descend as it falls upwind, climb as it grows "+
			"downwind, and the pylon stays on the wing.")
	CorrectAltitudeHigh = table.define("correct.altitude-high",
		"You flew above the pivotal altitude, so the pylon moved ahead of the wing: descend until it stays, and keep "+
			"that picture.")
	CorrectAltitudeLow = table.define("correct.altitude-low",
		"You flew below the pivotal altitude, so the pylon fell behind the wing: climb until it stays, and keep that "+
			"picture.")
	CorrectPylonTooClose = table.define("correct.pylon-too-close",
		"The bank was too steep from the start: begin the turn farther from the pylon. The distance sets the bank, "+
			"the ground speed the height.")
	CorrectTurnedOutOfWind = table.define("correct.out-of-wind",
		"The turn was begun away from the wind: cross the wind on a diagonal to a point downwind of the pylon, so "+
			"that each turn begins into the wind.")
	CorrectDriftBetween = table.define("correct.drift-between",
		"The wind carried you off between the pylons: point the nose into it on the straight part, until the track "+
			"leads past the next pylon at the same distance.")
	CorrectPylonsUneven = table.define("correct.pylons-uneven",
		"The second pylon was not as far away as the first: choose the track of the straight part by the next pylon, "+
			"so that both turns have the same bank.")
	CorrectRolledInBefore = table.define("correct.rolled-in-before-pylon",
		"The bank came before the pylon: wait until it is just ahead of the wing tip, then roll in to where the wing "+
			"points at it.")
	CorrectRolledInAfter = table.define("correct.rolled-in-after-pylon",
		"The bank came after the pylon: begin the roll-in while it is still just ahead of the wing tip.")
	CorrectPylonWanders = table.define("correct.pylon-wanders",
		"The pylon did not stay on the wing: ahead of it, descend; behind it, climb; above or below it, change the "+
			"bank. Never move it with the rudder.")
)
