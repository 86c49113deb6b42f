package phrase

// Names, and the words of a remark.
var (
	NameTooLong = table.define("name.too-long",
		"the name is {letters:number} letters long; must be at most {most:number}")
	NameStation = table.define("name.station",
		"the name of the station is {name:name}; must be 1 to {most:number} letters "+
			"without a slash, such as Seat 3")
	NameEncoding = table.define("name.encoding", "the name {name:name} is not in UTF-8: write it again")
	NameHidden   = table.define("name.hidden",
		"the name {name:name} holds the character {character:name}, which is not seen: write the name without it")
	TextEncoding = table.define("text.encoding", "the text is not in UTF-8: write it again")
	TextHidden   = table.define("text.hidden",
		"the text holds the character {character:name}, which is not seen: write it without")
	SpokenEmpty   = table.define("spoken.empty", "there is nothing to say: write what the pilot is to hear")
	SpokenTooLong = table.define("spoken.too-long", "the text has {words:number} words and {letters:number} letters; "+
		"must be at most {most:number} words and {longest:number} letters")
)

// The ground line, the point to fly about, and what is done at a station.
var (
	LineHeading = table.define("line.heading", "heading is {heading:number}; must be between 0 and 360")
	LineUnknown = table.define("line.unknown",
		"the heading of now is not known yet: wait for the stream, or choose one from 0 to 360")
	LineDistance = table.define("line.distance",
		"the reference point is {distance:number} away; must be between {least:number} and {most:number}")
	LineSide = table.define("line.side", "side is {side:name}; must be right, left or empty")

	AboutWhere   = table.define("about.where", "where is {where:name}; must be here, left or right")
	AboutUnknown = table.define("about.unknown",
		"there is no position with a true heading to take the point from: wait for the stream")
	AboutDistance = table.define("about.distance",
		"the point is {distance:number} off the wing; must be between {least:number} and {most:number}")

	StationGone   = table.define("station.gone", "station {station:name} is not there any more")
	StationMute   = table.define("station.mute", "station {station:name} does not answer; try again")
	CommandUnsure = table.define("command.unsure",
		"it is not known whether station {station:name} keeps this: a server or the store of the cluster did "+
			"not answer in time; look whether it is there before you do it again")
	PromptsUnknown = table.define("station.prompts-unknown",
		"prompts is {prompts:name}; must be card, all, fade or off")
	HandOverInLeg = table.define("station.in-leg",
		"a leg is being flown at {station:name}; hand over when it is over")
	NoDemonstration = table.define("station.no-demonstration", "this server flies no demonstrations")
	StationPrivate  = table.define("station.private",
		"station {station:name} is private: its pilot shares it with nobody now")
	PrivateByPilot = table.define("station.private-by-pilot",
		"only the pilot at station {station:name} can make it private, or share it again")
	NothingFlown = table.define("station.nothing-flown",
		"nothing was flown at {station:name} yet; there is no session to end")
)
