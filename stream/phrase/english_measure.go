package phrase

// Why an aircraft cannot be measured now.
var (
	MeasureLacks    = table.define("measure.lacks", "the stream has no {channel:phrase}, so this cannot be measured")
	MeasureOnGround = table.define("measure.ground", "the airplane is on the ground: take off and climb first")
	MeasureBank     = table.define("measure.bank", "bank {bank:number}: hold the wings level, within {limit:number}")
	MeasureClimb    = table.define("measure.climb", "{climb:number}: hold the height, within {limit:number}")
	MeasureSpeed    = table.define("measure.speed", "the speed changes: hold it within {limit:number}")
	MeasureLoad     = table.define("measure.load", "the load factor reads {load:number} in level flight; "+
		"must be near {one:number}: what the simulator sends for it is wrong")
	MeasureFast = table.define("measure.fast",
		"{speed:number}: throttle back, hold the height, and let it slow down to the stall warning")
	MeasureTooSlow = table.define("measure.slow", "{speed:number} is too slow to enter a maneuver with a stall at "+
		"{stall:number}: fly at {least:number} or more")
	MeasureNoStall = table.define("measure.no-stall",
		"no stall and no stall warning yet; at the slowest it was {speed:number}")
	MeasureNothing  = table.define("measure.nothing", "nothing is being measured at {station:name}; begin again")
	MeasureNotDone  = table.define("measure.not-done", "there is no entry speed yet, and a card needs one")
	MeasureNameless = table.define("measure.name", "give the aircraft a name of 1 to 40 letters")
	MeasureTaken    = table.define("measure.taken", "there is an aircraft {name:name} already; give another name")
	MeasureBad      = table.define("measure.bad", "these numbers make no card: {why:name}; measure again")
)

// Why a demonstration is not flown.
var (
	NotDemonstrated    = table.define("demonstration.maneuver", "the built-in aircraft cannot fly {maneuver:name}")
	DemonstrationFixed = table.define("demonstration.fixed",
		"this is a demonstration; stop it, and fly yourself, to change that")
)

// Why a simulator is not asked.
var (
	AskNobody = table.define("find.off",
		"no simulator is asked here; set the key nearby under [subscribe] of the configuration to true")
	AskFull   = table.define("find.full", "{most:number} simulators are asked already; stop one of them first")
	AskPublic = table.define("find.public",
		"that is no address of this machine or of a private network; name it with --subscribe")
	AskAddress = table.define("find.address", "{address:name} is no address of a simulator; "+
		"give it in numbers, such as 192.168.1.20")
	PortTaken = table.define("find.port", "the UDP port {port:name} cannot be opened to the network: {why:name}")
	NoFile    = table.define("guide.no-file", "the guide has no file {file:name}")
)
