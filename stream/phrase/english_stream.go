package phrase

// What to do about a stream that cannot be read, or not all of it.
var (
	NothingReadable = table.define("advice.nothing-readable",
		"Nothing in these datagrams can be read. Send text columns with labels, name=value pairs, DATA rows or "+
			"JSON lines; ready set-up files are in the folder simulators.")
	NotReadableAs = table.define("advice.not-readable-as",
		"The latest datagrams could not be read as {format:name}. Restart the output in the simulator.")
	ChannelNoNumber = table.define("advice.channel-no-number",
		"The channel {channel:name} is no number in this stream, and nothing can be coached without it. "+
			"Send a number from {least:name} to {most:name}.")
	ChannelTime = table.define("advice.channel-time",
		"The channel {channel:name} is {value:name} in this stream, which cannot be: it must be from {least:name} "+
			"to {most:name}. Send seconds, counted from any moment.")
	ChannelImpossible = table.define("advice.channel-impossible",
		"The channel {channel:name} is {value:name} in this stream, which cannot be: it must be from {least:name} "+
			"to {most:name}. Correct its unit in the sender, or in the map that reads it.")
	TooFewSamples = table.define("advice.too-few-samples",
		"Only {rate:number} samples a second come: too few to grade. Let the simulator send at least 5 a second, "+
			"better 30.")

	OnlyBeacon = table.define("advice.only-beacon", "This is only the simulator's beacon. "+
		"Switch on the data output rows (DATA) 1, 3, 4, 8, 16, 17, 18, 20 and 25.")
	OnlyArray = table.define("advice.only-array", "This is a JSON array. "+
		"Send one JSON object a line, in which each value has its channel's name before it.")
	OnlyPositions = table.define("advice.only-positions",
		"This is a position stream (NMEA 0183): no attitude, no airspeed. "+
			"Use the generic protocol with the file halfturn.xml.")

	NoAttitudeTablet = table.define("advice.no-attitude-tablet",
		"Position or traffic comes, but no attitude (XATT), without which nothing can be coached. "+
			"Switch on attitude in the program that sends to tablets.")
	NoAttitudeRows = table.define("advice.no-attitude-rows",
		"The DATA stream lacks row 17 (pitch, roll, headings), without which nothing can be coached. "+
			"Switch it on in the simulator's data output.")
	NoAttitudeDatarefs = table.define("advice.no-attitude-datarefs",
		"The datarefs sent hold no attitude (true_psi, true_theta, true_phi), without which nothing can be coached. "+
			"Send them, or switch on the data output rows (DATA) 1, 3, 4, 8, 16, 17, 18, 20 and 25.")
	NoAttitudeGDL90 = table.define("advice.no-attitude-gdl",
		"This GDL 90 stream has no attitude with a heading (message 0x65 or 0x4C), "+
			"without which nothing can be coached. Switch on AHRS in the program that sends it.")
	NoAttitudeMAVLink = table.define("advice.no-attitude-mavlink",
		"This MAVLink stream has no ATTITUDE message, without which nothing can be coached. "+
			"Ask for a higher rate of it (parameter SR0_EXTRA1 or the like).")
	NoEntity = table.define("advice.no-entity",
		"Nothing of what is sent here is about an entity that can be followed. "+
			"Send Entity State PDUs of the simulator's own aircraft.")

	ColumnsInOrder = table.define("advice.columns-in-order",
		"The stream has {columns:number} columns, the map {map:name} lists {listed:number} in its order. "+
			"Correct the map, or give another with --map FILE.")
	ColumnsOfMap = table.define("advice.columns-of-map",
		"The stream's {columns:number} columns do not fit the map {map:name}. "+
			"Correct the map, or give another with --map FILE.")
	ColumnsUnlike = table.define("advice.columns-unlike",
		"The stream has {columns:number} columns without labels; a known map has as many, but their values do not "+
			"look like it. "+resend)
	ColumnsUnknown = table.define("advice.columns-unknown",
		"The stream has {columns:number} columns without labels and no known map has as many. "+resend)

	BankReversed = table.define("advice.bank-reversed",
		`Bank and turn disagree: this sender gives left bank as positive. Put the line bank-sign = "reversed" into `+
			`the configuration file and start Halfturn again; or bank-sign = "auto", which finds out by itself.`)
	BankAsSent = table.define("advice.bank-as-sent",
		`Bank and turn disagree: bank-sign is "reversed", but this sender gives right bank as positive. Put the `+
			`line bank-sign = "as-sent" into the configuration file and start Halfturn again.`)
	PitchReversed = table.define("advice.pitch-reversed",
		`Pitch and vertical speed disagree: this sender gives nose down as positive. Put the line `+
			`pitch-sign = "reversed" into the configuration file and start Halfturn again; or pitch-sign = "auto", `+
			`which finds out by itself.`)
	PitchAsSent = table.define("advice.pitch-as-sent",
		`Pitch and vertical speed disagree: pitch-sign is "reversed", but this sender gives nose up as positive. `+
			`Put the line pitch-sign = "as-sent" into the configuration file and start Halfturn again.`)
)

const resend = "Restart the simulator's output so that it sends its labels, or describe the columns in a map file " +
	"and give it with --map FILE."

// What must be known of a stream besides its format.
var (
	DetailTablet = table.define("detail.tablet", "attitude and position merged by time of receipt; no airspeed; "+
		"track may be the heading, as the sender likes")
	DetailMAVLink = table.define("detail.mavlink",
		"airspeed is indicated or equivalent, as the autopilot likes; no height above ground")
	DetailFDM = table.define("detail.native", "body rates from Euler rates; no true airspeed, no throttle, no clock; "+
		"sideslip and rpm only when ever other than 0")
	DetailDatarefs  = table.define("detail.datarefs", "values of single datarefs, with 32 bits")
	DetailEllipsoid = table.define("detail.ellipsoid",
		"altitude is the height above the ellipsoid, other than mean sea level by up to {most:number}; no airspeed")
	GDL90Ellipsoid = table.define("detail.gdl-ellipsoid", "altitude is the height above the ellipsoid, "+
		"other than mean sea level by up to {most:number}; attitude by message {message:words}")
	GDL90Pressure = table.define("detail.gdl-pressure", "altitude is pressure altitude, "+
		"which in most simulators is the true one; attitude by message {message:words}")
	GDL90Sea = table.define("detail.gdl-sea",
		"altitude is above mean sea level; attitude by message {message:words}")

	RowsOldTold = table.define("detail.rows-old-told",
		"row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), as told")
	RowsOldFound = table.define("detail.rows-old-found",
		"row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), found from the change of attitude")
	RowsNewTold  = table.define("detail.rows-new-told", "row 16 is roll, pitch, yaw in °/s (version 12), as told")
	RowsNewFound = table.define("detail.rows-new-found",
		"row 16 is roll, pitch, yaw in °/s (version 12), found from the change of attitude")
	RowsUnknown = table.define("detail.rows-unknown", "row 16: layout not found yet, its rates are not used")
)

// What this machine lost of a stream.
var (
	HoleOwn = table.define("hole.own",
		"Datagrams of this station that this machine lost around {time:number} into the session: {own:number}. They "+
			"came faster than it worked them off.")
	HoleShared = table.define("hole.shared",
		"Datagrams that this machine lost around {time:number} into the session, of this station or of others: "+
			"{shared:number}. They came faster than it read them.")
	HoleBoth = table.define("hole.both",
		"Datagrams of this station that this machine lost around {time:number} into the session: {own:number}. Of "+
			"this station or of others: {shared:number} more. They came faster than it read them and worked them off.")
)

// Why a sample does not continue the flight before it.
var (
	ClockBack      = table.define("jump.clock-back", "clock went back")
	ReceiptBack    = table.define("jump.receipt-back", "receive clock went back")
	ClockAppeared  = table.define("jump.clock-appeared", "simulator clock appeared in the stream")
	ClockGone      = table.define("jump.clock-gone", "simulator clock no longer sent")
	Gap            = table.define("jump.gap", "gap of {gap:number} in the stream")
	AttitudeJumped = table.define("jump.attitude", "attitude jumped")
	AltitudeJumped = table.define("jump.altitude", "altitude jumped")
	AirspeedJumped = table.define("jump.airspeed", "airspeed jumped")
	PositionJumped = table.define("jump.position", "position jumped")
	PaceChanged    = table.define("jump.pace",
		"the simulator's time ran faster or slower than the clock's; set its rate to 1 and start again")
	FormatChanged    = table.define("jump.format", "the sender changed its format")
	BankTurnedRound  = table.define("jump.bank-turned", "bank was sent with the other sign and is turned round")
	PitchTurnedRound = table.define("jump.pitch-turned", "pitch was sent with the other sign and is turned round")
)
