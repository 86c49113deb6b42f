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
)

// The ground line, and what is done at a station.
var (
	LineHeading = table.define("line.heading", "heading is {heading:number}; must be between 0 and 360")
	LineUnknown = table.define("line.unknown",
		"the heading of now is not known yet: wait for the stream, or choose one from 0 to 360")
	LineDistance = table.define("line.distance",
		"the reference point is {distance:number} away; must be between {least:number} and {most:number}")
	LineSide = table.define("line.side", "side is {side:name}; must be right, left or empty")

	StationGone    = table.define("station.gone", "station {station:name} is not there any more")
	StationMute    = table.define("station.mute", "station {station:name} does not answer; try again")
	PromptsUnknown = table.define("station.prompts-unknown",
		"prompts is {prompts:name}; must be card, all, fade or off")
	NothingFlown = table.define("station.nothing-flown",
		"nothing was flown at {station:name} yet; there is no session to end")
)
