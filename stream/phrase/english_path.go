package phrase

// Cards that are not there.
var (
	NoManeuver = table.define("choice.maneuver",
		"there is no maneuver card {name:name}; there are: {names:words}")
	NoStandard = table.define("choice.standard", "there is no standard {name:name}; there are: {names:words}")
	NoAircraft = table.define("choice.aircraft",
		"there is no aircraft card {name:name}; there are: {names:words}")
)

// Why there is no reference path.
var (
	NoAircraftChosen = table.define("path.no-aircraft", "no aircraft card is chosen")
	PathApex         = table.define("path.apex",
		"apex airspeed is {apex:number}; must be more than 0 and less than the entry airspeed of {entry:number}")
	PathApexStall = table.define("path.apex-stall",
		"apex airspeed {apex:number} is under half the stall speed of {stall:number}: check the aircraft card")
	PathTooSlow = table.define("path.too-slow",
		"airspeed falls under the apex of {apex:number} even with the nose at {nose:number}: it needs more power, "+
			"less bank or a lower apex")
	PathNoseLimit = table.define("path.nose-limit", "a nose above {nose:number} is not looked at")
	PathApexFar   = table.define("path.apex-far",
		"apex {apex:number} is out of reach: with the nose at {nose:number} airspeed falls to {least:number} only; "+
			"{why:phrase}")
	PathNoDepth = table.define("path.no-depth",
		"no depth of the nose-down part ends the program at its entry height")
	PathStalls = table.define("path.stalls",
		"stalls at {turn:number} of turn: {airspeed:number} at {load:number}, stall speed there {stall:number}")
	PathLoad = table.define("path.load",
		"load factor {load:number} at {turn:number} of turn is over the limit of {most:number}")
	PathEntrySpeed = table.define("path.entry-speed",
		"entry airspeed is {airspeed:number}; must be between {least:number} and {most:number}")
	PathAltitude = table.define("path.altitude",
		"entry altitude is {altitude:number}; must be between {least:number} and {most:number}")
	PathNose       = table.define("path.nose", "the nose is at {nose:number}; must be between -75 and 75")
	PathStallSpeed = table.define("path.stall-speed",
		"stall speed is {stall:number}; must be 0 (unknown) or less than the entry airspeed of {entry:number}")
	PathGlide = table.define("path.glide",
		"lift-to-drag ratio is {ratio:number} at {airspeed:number}; must be between 0 (unknown) and 80 at an airspeed "+
			"between 0 (unknown) and {most:number}")
	PathCannot = table.define("path.cannot",
		"cannot be flown past {turn:number} of turn: nose at {nose:number}, {airspeed:number} left: the lift there "+
			"cannot follow the program")
)
