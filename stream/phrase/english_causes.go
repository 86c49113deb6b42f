package phrase

// What shows a cause.
var (
	Flown   = table.define("evidence.flown", "{label:card}: {flown:signed}, wanted {wanted:clause}")
	FlownAt = table.define("evidence.flown-at",
		"{label:card}: {flown:signed} at {turn:number} of turn, wanted {wanted:clause}")
	PowerMoved   = table.define("evidence.power", "Power moved by {share:signed} %")
	PowerMovedAt = table.define("evidence.power-at", "Power moved by {share:signed} % at {turn:number} of turn")
	WithIt       = table.define("evidence.with", "{shown:phrase}; with it came {came:within}")
	OnlyWithIt   = table.define("evidence.only-with", "With it came {came:within}")
	TurnTook     = table.define("evidence.turn-took",
		"The turn took {took:number}, the numbers give about {meant:number}")
	NoseAtThirty = table.define("evidence.nose-at-thirty",
		"The nose was {nose:signed} above level at 30° of turn, wanted {aim:signed}")
	BankWent = table.define("evidence.bank-went",
		"Bank went from {from:number} at {start:number} of turn to {to:number} at {end:number}")
	LevelAt = table.define("evidence.level-at",
		"The wings came level at {turn:number} of turn, wanted {wanted:number}")
	NoseFell = table.define("evidence.nose-fell",
		"The nose came down by {fell:number} from {from:number} to {to:number} of turn")
	EnergyShort = table.define("evidence.energy-short", "Energy height {off:number} below that of the reference "+
		"path at the exit, most of it lost from {from:number} to {to:number} of turn")
	EnergyOver = table.define("evidence.energy-over", "Energy height {off:number} above that of the reference "+
		"path at the exit, most of it gained from {from:number} to {to:number} of turn")
	KnockedOff  = table.define("evidence.knock-off", "Knock off: {reason:clause}")
	BrokenOff   = table.define("evidence.broken-off", "Broken off: {reason:clause}")
	BothToRight = table.define("evidence.both-right",
		"Legs {first:number} and {second:number} were both to the right")
	BothToLeft = table.define("evidence.both-left",
		"Legs {first:number} and {second:number} were both to the left")
)

// The band in which a value meets the standard.
var (
	Exactly  = table.define("band.exactly", "{value:signed}")
	Between  = table.define("band.between", "{low:bare} to {high:signed}")
	AtLeast  = table.define("band.at-least", "at least {low:signed}")
	AtMost   = table.define("band.at-most", "at most {high:signed}")
	AnyValue = table.define("band.any", "–")
)

// sentencesJoined joins phrases that each could stand alone.
var sentencesJoined = table.define("list.sentences", "{first:phrase}; {rest:phrase}")

// Sentences returns phrases as one, with semicolons between them; none is the zero value.
func Sentences(all ...Phrase) Phrase { return join(sentencesJoined, all) }

// The one thing to change, at most five words: it is also spoken.
var (
	ChangeKeepTheBankFromGrowing  = table.define("change.keep-the-bank-from-growing", "Keep the bank from growing")
	ChangeKeepTheBankOn           = table.define("change.keep-the-bank-on", "Keep the bank on")
	ChangeLessBank                = table.define("change.less-bank", "Less bank")
	ChangeMoreBank                = table.define("change.more-bank", "More bank")
	ChangeRollOutSlower           = table.define("change.roll-out-slower", "Roll out slower")
	ChangeRollInSlower            = table.define("change.roll-in-slower", "Roll in slower")
	ChangeKeepRollingToNinety     = table.define("change.keep-rolling-to-ninety", "Keep rolling to ninety")
	ChangeSteepestBankAtNinety    = table.define("change.steepest-bank-at-ninety", "Steepest bank at ninety")
	ChangeRollSlowerNoseFirst     = table.define("change.roll-slower-nose-first", "Roll slower, nose first")
	ChangeKeepTheBankComing       = table.define("change.keep-the-bank-coming", "Keep the bank coming")
	ChangeBankOffMoreSlowly       = table.define("change.bank-off-more-slowly", "Bank off more slowly")
	ChangeHoldTheTurnLonger       = table.define("change.hold-the-turn-longer", "Hold the turn longer")
	ChangeStartTheRollOutSooner   = table.define("change.start-the-roll-out-sooner", "Start the roll-out sooner")
	ChangeHoldTheBankToNinety     = table.define("change.hold-the-bank-to-ninety", "Hold the bank to ninety")
	ChangeStartRollingOutAtNinety = table.define("change.start-rolling-out-at-ninety", "Start rolling out at ninety")
	ChangeRaiseTheNoseSooner      = table.define("change.raise-the-nose-sooner", "Raise the nose sooner")
	ChangeLeaveThePowerAlone      = table.define("change.leave-the-power-alone", "Leave the power alone")
	ChangeBringTheNoseUpSooner    = table.define("change.bring-the-nose-up-sooner", "Bring the nose up sooner")
	ChangeLowerNoseInDescent      = table.define("change.lower-nose-in-descent", "Lower nose in descent")
	ChangePullOutSooner           = table.define("change.pull-out-sooner", "Pull out sooner")
	ChangeMoreBackPressure        = table.define("change.more-back-pressure", "More back pressure")
	ChangeLetTheNoseDownFurther   = table.define("change.let-the-nose-down-further", "Let the nose down further")
	ChangeEaseTheBackPressure     = table.define("change.ease-the-back-pressure", "Ease the back pressure")
	ChangeMoreNoseUseTheSpeed     = table.define("change.more-nose-use-the-speed", "More nose, use the speed")
	ChangeStopALittleFaster       = table.define("change.stop-a-little-faster", "Stop a little faster")
	ChangeLessPowerNextTime       = table.define("change.less-power-next-time", "Less power next time")
	ChangeLessPowerInTheTurn      = table.define("change.less-power-in-the-turn", "Less power in the turn")
	ChangeMorePowerNextTime       = table.define("change.more-power-next-time", "More power next time")
	ChangeMorePowerInTheTurn      = table.define("change.more-power-in-the-turn", "More power in the turn")
	ChangePullMoreGently          = table.define("change.pull-more-gently", "Pull more gently")
	ChangePullMoreUseTheSpeed     = table.define("change.pull-more-use-the-speed", "Pull more, use the speed")
	ChangeMoreNoseLessBank        = table.define("change.more-nose-less-bank", "More nose, less bank")
	ChangeStepOnTheBall           = table.define("change.step-on-the-ball", "Step on the ball")
	ChangeSettleDownBeforeEntry   = table.define("change.settle-down-before-entry", "Settle down before entry")
	ChangeWaitForEntrySpeed       = table.define("change.wait-for-entry-speed", "Wait for entry speed")
	ChangeSlowDownBeforeEntry     = table.define("change.slow-down-before-entry", "Slow down before entry")
	ChangeStartFromLevelFlight    = table.define("change.start-from-level-flight", "Start from level flight")
	ChangeStartWithWingsLevel     = table.define("change.start-with-wings-level", "Start with wings level")
	ChangeSlowerDoNotRush         = table.define("change.slower-do-not-rush", "Slower, do not rush")
	ChangeALittleQuicker          = table.define("change.a-little-quicker", "A little quicker")
	ChangeFinishTheTurn           = table.define("change.finish-the-turn", "Finish the turn")
	ChangeStartHigher             = table.define("change.start-higher", "Start higher")
	ChangeStayInsideTheLimits     = table.define("change.stay-inside-the-limits", "Stay inside the limits")
	ChangePullTheNoseHigher       = table.define("change.pull-the-nose-higher", "Pull the nose higher")
	ChangeRollInWithThePull       = table.define("change.roll-in-with-the-pull", "Roll in with the pull")
	ChangeNoseHighestByFortyFive  = table.define("change.nose-highest-by-forty-five", "Nose highest by forty-five")
	ChangeLetTheNoseDropSooner    = table.define("change.let-the-nose-drop-sooner", "Let the nose drop sooner")
	ChangeHoldTheNoseUpLonger     = table.define("change.hold-the-nose-up-longer", "Hold the nose up longer")
	ChangeHoldTheNoseUp           = table.define("change.hold-the-nose-up", "Hold the nose up")
	ChangeHoldTheNoseNoHigher     = table.define("change.hold-the-nose-no-higher", "Hold the nose, no higher")
	ChangeTheSecondTheOtherWay    = table.define("change.the-second-the-other-way", "The second the other way")
	ChangeSamePictureBothWays     = table.define("change.same-picture-both-ways", "Same picture both ways")
	ChangeFinishOnTheLine         = table.define("change.finish-on-the-line", "Finish on the line")
	ChangeFlyAllTheLegs           = table.define("change.fly-all-the-legs", "Fly all the legs")
	ChangeKeepEverythingMoving    = table.define("change.keep-everything-moving", "Keep everything moving")
	ChangeClearTheAreaFirst       = table.define("change.clear-the-area-first",
		"Clear the area first")
	ChangeClimbNotJustTurn = table.define("change.climb-not-just-turn",
		"Climb, do not just turn")
	ChangeSlowerRollAtTheStart = table.define("change.slower-roll-at-the-start",
		"Slower roll at the start")
	ChangeLetTheNoseDownSlowly = table.define("change.let-the-nose-down-slowly",
		"Let the nose down slowly")
	ChangeShallowerDescent = table.define("change.shallower-descent",
		"A shallower descent")
	ChangeSameBelowAsAbove = table.define("change.same-below-as-above",
		"Same below as above")
	ChangeOneSmoothSteadyPressure = table.define("change.one-smooth-steady-pressure",
		"One smooth, steady pressure")
)

// What to do about a cause: the fact first.
var (
	CorrectBankGrows = table.define("correct.bank-grows",
		"The bank went on growing after it was set, as it does by itself in a climbing turn: hold it with "+
			"slight opposite aileron, and rudder to keep the ball.")
	CorrectBankGrowsLevel = table.define("correct.bank-grows-level",
		"The bank went on growing after it was set, as it does by itself in a steep turn: hold it with slight "+
			"opposite aileron, and rudder to keep the ball.")
	CorrectBankFallsOff = table.define("correct.bank-falls-off",
		"The bank came off too soon: look at the wing against the horizon and hold it where it was.")
	CorrectOverbanked = table.define("correct.overbanked",
		"The bank went too far, and past it the nose falls through: stop the roll earlier and look for the "+
			"horizon across the nose.")
	CorrectOverbankedLevel = table.define("correct.overbanked-level",
		"The bank was too steep: take the bank off first, then stop the height from falling with back "+
			"pressure. Back pressure alone only tightens the turn.")
	CorrectOverbankedClimb = table.define("correct.overbanked-climb",
		"The bank was too steep, and the lift that should have made height made turn: stop the roll sooner, and "+
			"keep the nose rising.")
	CorrectUnderbanked = table.define("correct.underbanked",
		"There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose "+
			"come round.")
	CorrectUnderbankedLevel = table.define("correct.underbanked-level",
		"The bank was too shallow: roll on to the bank wanted and hold it there against the horizon.")
	CorrectUnderbankedClimb = table.define("correct.underbanked-climb",
		"The bank was too shallow, so the turn takes longer than the speed lasts: roll to the bank wanted first, and "+
			"hold it there while the nose comes up.")
	CorrectRollOutQuick = table.define("correct.roll-out-quick",
		"The bank was held too long and then came off in a hurry: start just past ninety and take it off as "+
			"slowly as it came on.")
	CorrectRollInQuick = table.define("correct.roll-in-quick",
		"The bank came on faster than it went off: roll in with one slow, even pressure.")
	CorrectBankPeakEarly = table.define("correct.bank-peak-early",
		"The bank was steepest too early and came off before the nose was round: roll slower and keep "+
			"rolling to ninety degrees of turn.")
	CorrectBankPeakLate = table.define("correct.bank-peak-late",
		"The bank was steepest too late: have it all by ninety degrees of turn, then begin at once to take "+
			"it off.")
	CorrectBankLeads = table.define("correct.bank-leads",
		"The bank was ahead of the turn: let the nose climb first, and let the bank grow no faster than the "+
			"turn.")
	CorrectBankLags = table.define("correct.bank-lags",
		"The bank was behind the turn: begin to roll with the pull, and begin to take the bank off as the "+
			"nose passes ninety degrees of turn.")
	CorrectLevelBefore180 = table.define("correct.level-early",
		"The wings were level before the heading: take the bank off so slowly that the last of it goes as "+
			"the heading comes.")
	CorrectRolledOutEarly = table.define("correct.rolled-out-early",
		"You rolled out before the heading: look for the reference point over the wing, and hold some bank "+
			"until it is there.")
	CorrectRolledOutEarlyLevel = table.define("correct.rolled-out-early-level",
		"You rolled out before the heading: hold the bank until the degrees to go are half of it, with the reference "+
			"point coming to the nose.")
	CorrectRolledOutEarlyThird = table.define("correct.rolled-out-early-third",
		"You rolled out before the heading: hold the bank until the degrees to go are a third of it.")
	CorrectRolledOutLateThird = table.define("correct.rolled-out-late-third",
		"You turned past the heading: start the roll-out when the degrees to go are a third of the bank.")
	CorrectRolledOutLate = table.define("correct.rolled-out-late",
		"You turned past the heading: start the roll-out sooner, so that the last of the bank goes as the "+
			"heading comes.")
	CorrectRolledOutLateTo = table.define("correct.rolled-out-late-to",
		"You turned past the heading: start the roll-out sooner, so that {bank:number} of bank are left with "+
			"{left:number} of turn to go.")
	CorrectRolledOutLateLevel = table.define("correct.rolled-out-late-level",
		"You turned past the heading: start the roll-out when the degrees to go are half the bank.")
	CorrectRollOutBegunEarly = table.define("correct.roll-out-begun-early",
		"The roll-out began too early: hold the bank until the nose has passed ninety degrees of turn.")
	CorrectRollOutBegunLate = table.define("correct.roll-out-begun-late",
		"The roll-out began too late: begin to take the bank off as the nose passes ninety degrees of turn.")
	CorrectDiveNotShallowed = table.define("correct.dive-not-shallowed",
		"The nose was still low as the wings came level: begin to raise it at one thirty-five, with the bank "+
			"coming off.")
	CorrectPowerAdded = table.define("correct.power-added",
		"Power was added on the way, so you came out fast: set it before the entry and take the hand off "+
			"until level.")
	CorrectPowerReduced = table.define("correct.power-reduced",
		"Power was taken off on the way, so you came out slow: set it before the entry and take the hand off "+
			"until level.")
	CorrectEndsLow = table.define("correct.ends-low",
		"You ended below the height you began at: bring the nose up sooner and let the descent be as shallow "+
			"as the climb.")
	CorrectEndsHigh = table.define("correct.ends-high",
		"You ended above the height you began at: let the nose down as far as it went up.")
	CorrectHeightLost = table.define("correct.height-lost",
		"You ended low: bring the nose up sooner with a little more back pressure, before the wings are "+
			"level.")
	CorrectHeightLostLevel = table.define("correct.height-lost-level",
		"Height was lost in the turn: check the bank first, then add back pressure as the bank comes on, and "+
			"hold the nose where it keeps the height.")
	CorrectHeightGained = table.define("correct.height-gained",
		"You ended high: let the nose go lower in the second half and pull less until the wings are nearly "+
			"level.")
	CorrectHeightGainedLevel = table.define("correct.height-gained-level",
		"Height was gained in the turn: ease the back pressure until the nose stands still on the horizon.")
	CorrectTooFastAtTheEnd = table.define("correct.too-fast-at-the-end",
		"There was speed left at the end: raise the nose more in the first ninety degrees and turn all of it "+
			"into height.")
	CorrectTooSlowAtTheEnd = table.define("correct.too-slow-at-the-end",
		"The speed ran out before the end: hold the nose a little lower from ninety degrees on.")
	CorrectExitFast = table.define("correct.exit-fast",
		"You came out fast with the power left alone: it was set too high, so set less before the entry.")
	CorrectExitFastLevel = table.define("correct.exit-fast-level",
		"The speed grew in the turn: take a little power off as soon as it passes the entry speed.")
	CorrectExitSlow = table.define("correct.exit-slow",
		"You came out slow with the power left alone: it was set too low, so set more before the entry.")
	CorrectExitSlowLevel = table.define("correct.exit-slow-level",
		"The speed fell in the turn: add a little power as the bank comes on.")
	CorrectSlowOverTheTop = table.define("correct.slow-over-the-top",
		"The speed over the top was too low: ease the pull once the nose has passed forty-five degrees of "+
			"turn.")
	CorrectFastOverTheTop = table.define("correct.fast-over-the-top",
		"The speed over the top was too high: pull a little more in the first forty-five degrees, so that "+
			"more of it becomes height.")
	CorrectLittleHeight = table.define("correct.little-height",
		"Little height came of it: raise the nose more and bank less, so that speed becomes height and not "+
			"turn.")
	CorrectSlipOrSkid = table.define("correct.slip-or-skid",
		"The ball was out for much of the turn: use rudder together with the aileron in each roll, and press "+
			"the pedal on the side of the ball.")
	CorrectSlipOrSkidRight = table.define("correct.slip-or-skid-right",
		"The ball was out for much of the turn: use rudder together with the aileron in each roll, and more "+
			"right rudder as the speed falls.")
	CorrectSlipOrSkidLeft = table.define("correct.slip-or-skid-left",
		"The ball was out for much of the turn: use rudder together with the aileron in each roll, and more "+
			"left rudder as the speed falls.")
	CorrectNotStabilized = table.define("correct.not-stabilized",
		"More than one thing was moving at the entry: hold height, speed and level wings for five seconds, "+
			"then begin.")
	CorrectEntrySlow = table.define("correct.entry-slow",
		"You began too slow, so there was too little speed for the climb: wait for the entry speed before "+
			"you pull.")
	CorrectEntrySlowLevel = table.define("correct.entry-slow-level",
		"You began too slow: wait for the entry speed before you roll in.")
	CorrectEntryFast = table.define("correct.entry-fast",
		"You began too fast, so the whole turn ran fast: settle on the entry speed before you pull.")
	CorrectEntryFastLevel = table.define("correct.entry-fast-level",
		"You began too fast: settle on the entry speed before you roll in.")
	CorrectEntryDescending = table.define("correct.entry-descending",
		"You were descending when you began: hold the height for five seconds, then pull.")
	CorrectEntryDescendingLevel = table.define("correct.entry-descending-level",
		"You were descending when you began: hold the height for five seconds, then roll in.")
	CorrectEntryClimbing = table.define("correct.entry-climbing",
		"You were climbing when you began: hold the height for five seconds, then pull.")
	CorrectEntryClimbingLevel = table.define("correct.entry-climbing-level",
		"You were climbing when you began: hold the height for five seconds, then roll in.")
	CorrectEntryBanked = table.define("correct.entry-banked",
		"The wings were not level when you began: level them on the line, then pull.")
	CorrectEntryBankedLevel = table.define("correct.entry-banked-level",
		"The wings were not level when you began: level them on the line, then roll in.")
	CorrectRushed = table.define("correct.rushed",
		"The turn was rushed: roll in and out at half that rate, and let the nose climb before the bank "+
			"grows.")
	CorrectDragged = table.define("correct.dragged",
		"The turn dragged on: keep the bank growing steadily, so that the nose comes round in time.")
	CorrectAbandoned = table.define("correct.abandoned",
		"The turn was given up on the way: decide before the pull, then fly it through to level wings on the "+
			"heading.")
	CorrectAbandonedLevel = table.define("correct.abandoned-level",
		"The turn was given up on the way: fly it through to level wings on the heading.")
	CorrectBelowHardDeck = table.define("correct.below-hard-deck",
		"It was stopped at the hard deck: start higher, and break off yourself before you reach it.")
	CorrectLimitPassed = table.define("correct.limit-passed",
		"A limit of the aircraft was passed: ease the controls early, and watch speed and load in the "+
			"descent.")
	CorrectStalled = table.define("correct.stalled",
		"The wing ran out of lift: ease the back pressure as soon as the controls go soft, and bring the "+
			"nose up less.")
	CorrectNoseTooHigh = table.define("correct.nose-too-high",
		"The nose went too high, so the speed ran out over the top: pull more gently and stop the nose lower.")
	CorrectNoseTooHighClimb = table.define("correct.nose-too-high-climb",
		"The nose went too high, so the speed ran out before the wings were level: pull more gently, and "+
			"keep speed to hold the nose up to the end.")
	CorrectNoseTooLow = table.define("correct.nose-too-low",
		"The nose stayed too low, so the speed was never used: pull a little more in the first forty-five "+
			"degrees.")
	CorrectNosePeakEarly = table.define("correct.nose-peak-early",
		"The nose was highest too early: begin the roll with the pull, so that forty-five degrees of turn "+
			"come as the nose is highest.")
	CorrectRollInLate = table.define("correct.roll-in-late",
		"The nose was pulled up with the wings still level, which costs speed before the turn begins: begin the "+
			"roll with the pull.")
	CorrectNosePeakLate = table.define("correct.nose-peak-late",
		"You kept pulling too long: have the nose highest at forty-five degrees of turn, then let the bank "+
			"bring it down.")
	CorrectNosePeakLateGentle = table.define("correct.nose-peak-late-gentle",
		"Forty-five degrees came before the nose was highest: roll in more slowly, since rising nose and "+
			"bank both speed the turn up.")
	CorrectNoseLate = table.define("correct.nose-late",
		"The nose was still up at ninety: ease the pull after forty-five degrees and let it fall through the "+
			"horizon at ninety.")
	CorrectNoseEarly = table.define("correct.nose-early",
		"The nose was already down at ninety: keep a little back pressure until it passes the horizon there.")
	CorrectNoseDropped = table.define("correct.nose-dropped",
		"The nose sank in the roll-out: it takes more back pressure as the speed falls, so hold the picture "+
			"until the wings are level.")
	CorrectNoseStillRising = table.define("correct.nose-still-rising",
		"The nose went on rising in the roll-out: stop it at ninety degrees of turn and hold it there.")
	CorrectHeldStill = table.define("correct.held-still",
		"Something was held where nothing ever stands still: keep the nose, the bank and the speed "+
			"changing slowly, from the first of the turn to the last.")
	CorrectTurnNotClimb = table.define("correct.turn-not-climb",
		"It was a steep turn and hardly a climb: raise the nose with the bank, so that the speed becomes "+
			"height on the way to ninety degrees.")
	CorrectNoseFallsThrough = table.define("correct.nose-falls-through",
		"The nose fell through the horizon: begin to let it down at forty-five degrees, and let it come down "+
			"evenly to one thirty-five.")
	CorrectDiveTooSteep = table.define("correct.dive-too-steep",
		"The descent was too steep: keep a little back pressure from ninety degrees on, and let the nose go "+
			"as far below the horizon as it was above.")
	CorrectUnevenHalves = table.define("correct.uneven-halves",
		"The two halves were not alike: let the nose go as far below the horizon at one thirty-five as it "+
			"was above it at forty-five.")
	CorrectRoughControls = table.define("correct.rough-controls",
		"The controls were moved in jerks: use one smooth, steady pressure for each change, and watch the "+
			"horizon instead of chasing the numbers.")
	CorrectNotCleared = table.define("correct.not-cleared",
		"No clearing turns were seen before it: fly two turns of ninety degrees in opposite directions and "+
			"look around, then begin.")
	CorrectSameDirection = table.define("correct.same-direction",
		"Two legs went the same way: fly the second to the other side, so that both sides are practiced and "+
			"you end where you began.")
	CorrectUneven = table.define("correct.uneven",
		"The legs were not alike: look for the same nose and the same bank to both sides, and compare them "+
			"where the nose is highest, at ninety, and where it is lowest.")
	CorrectOffTheLine = table.define("correct.off-the-line",
		"You did not end on the line you began on: choose a road or a shore as the line, and roll each leg "+
			"out on it.")
	CorrectLegsMissing = table.define("correct.legs-missing",
		"The maneuver was not flown to its end: fly every leg of it, one after the other.")
)
