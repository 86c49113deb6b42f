package phrase

// Why there is no reference path where power or height are asked for.
var (
	PathPower = table.define("path.power",
		"power is {power:number} and {added:number} more; must be between 0 and 10, and between -1 and 10")
	PathNoPower = table.define("path.no-power", "no power brings back height and airspeed together")
	PathNoLevel = table.define("path.no-level",
		"there is no level turn at a bank of {bank:number}; must be at most {most:number}")
)

// The heading at the end of a turn, which before the flight has no number.
var (
	OppositeHeading = table.define("heading.opposite", "the opposite heading")
	EntryHeading    = table.define("heading.entry", "the entry heading")
	NewHeading      = table.define("heading.new", "the new heading")
)

// What a maneuver asks for and the aircraft may not do, and what else is to be known before it is flown.
var (
	BankNormal = table.define("plan.bank-normal",
		"the normal category allows {limit:number} of bank; this maneuver asks for {bank:number}")
	BankUtility = table.define("plan.bank-utility",
		"the utility category allows {limit:number} of bank; this maneuver asks for {bank:number}")
	BankLimit = table.define("plan.bank-limit",
		"the aircraft is limited to {limit:number} of bank; this maneuver asks for {bank:number}")
	EntryOverLimit = table.define("plan.entry-over-limit",
		"the entry speed of {entry:number} is above the maneuvering speed of {limit:number}")
	NoseStated = table.define("plan.nose-stated",
		"the highest nose of {nose:number} is the aircraft card's; with it the speed falls to {speed:number}")
	BeginsAt = table.define("plan.begins-at",
		"the reference path begins at {altitude:number} above sea level; begun {step:number} higher, a leg takes "+
			"about 1.5 % longer")
	Parachutes = table.define("plan.parachutes",
		"beyond {bank:number} of bank or {nose:number} of nose all wear parachutes when not only the crew is aboard "+
			"(14 CFR 91.307)")
)
