package phrase

// The gates of a set-up, the lanes of the ribbon and the numbers of a brief.
var (
	LabelWingsLevel = table.define("label.wings-level", "Wings level")
	LabelHeightHeld = table.define("label.height-held", "Height held")
	LabelSteady     = table.define("label.steady-speed", "Steady speed")
	LabelEntrySpeed = table.define("label.entry-speed", "Entry speed")
	LabelBall       = table.define("label.ball", "Ball centered")
	LabelDeck       = table.define("label.hard-deck", "Above the hard deck")
	LabelClearing   = table.define("label.clearing-turns", "Clearing turns")
	LabelLine       = table.define("label.on-the-line", "On the line")

	LabelBank   = table.define("label.bank", "Bank")
	LabelNose   = table.define("label.nose", "Nose")
	LabelSpeed  = table.define("label.speed", "Speed")
	LabelHeight = table.define("label.height", "Height")
	// Of a turn about a point on the ground: how far off its mean distance, and off the pivotal altitude.
	LabelDistance   = table.define("label.distance", "Distance")
	LabelOffPivotal = table.define("label.off-pivotal", "Off pivotal")

	LabelLowestSpeed = table.define("label.lowest-speed", "Lowest speed")
	LabelStallSpeed  = table.define("label.stall-speed", "Stall speed with wings level")
	LabelPower       = table.define("label.power", "Power")
	LabelManeuvering = table.define("label.maneuvering-speed", "Maneuvering speed")
	LabelDeckHeight  = table.define("label.deck-height", "Hard deck above the ground")
	LabelLowestStart = table.define("label.lowest-start", "Start no lower, above the ground")
	LabelSteepest    = table.define("label.steepest-bank", "Steepest bank")
	LabelHighestNose = table.define("label.highest-nose", "Highest nose above level")
	LabelGained      = table.define("label.height-gained", "Height gained")
	LabelDuration    = table.define("label.duration", "Time of a leg")
	LabelLoad        = table.define("label.load", "Highest load factor")
	LabelMargin      = table.define("label.stall-margin", "Least margin over the stall")
	LabelRadius      = table.define("label.radius", "Smallest radius, no wind")
	LabelPivotal     = table.define("label.pivotal-altitude", "Pivotal altitude, no wind")
	LabelLost        = table.define("label.height-lost", "Height lost, no wind")

	AtTurn = table.define("number.at-turn", "at {turn:number} of turn")
)

// What a gate asks for.
var (
	WantWithin   = table.define("want.within", "within {value:number}")
	WantSteady   = table.define("want.steady", "steady within {value:number}")
	WantBall     = table.define("want.ball", "within {value:number} of a ball")
	WantClearing = table.define("want.clearing",
		"{around:number} of turn, or {side:number} each way")
	WantLine = table.define("want.line", "within {value:number} of {heading:words}")

	WantSpeed   = table.define("want.speed", "{speed:number}, within {within:number}")
	WantSpeeds  = table.define("want.speeds", "{speeds:phrase}, within {within:number}")
	EitherSpeed = table.define("speeds.either", "{first:number} or {second:number}")
	MoreSpeeds  = table.define("speeds.more", "{first:number}, {rest:phrase}")
)

// What to aim at at a checkpoint.
var (
	AimBank      = table.define("aim.bank", "bank {bank:number}")
	AimLevel     = table.define("aim.level", "wings level")
	AimNoseUp    = table.define("aim.nose-up", "nose {nose:number} up")
	AimNoseDown  = table.define("aim.nose-down", "nose {nose:number} down")
	AimNoseLevel = table.define("aim.nose-level", "nose level")
)
