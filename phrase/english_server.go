package phrase

// What the server answers when it cannot do what was asked.
var (
	InternalError = define("server.internal", "something went wrong here; the server's log says what")
	ForeignPage   = define("server.foreign-page",
		"the request came from another site's page; use Halfturn's own")
	BodyTooLong = define("server.body-too-long", "what was sent is longer than {bytes:number} bytes")
	BodyStopped = define("server.body-stopped",
		"nothing more arrived of what is being sent for {wait:number}; send it again")
	UnknownHost = define("server.unknown-host",
		"this server is not known by the name {host:name}: open it by its address, or add the name to its hosts")
	NoPage   = define("server.no-page", "there is no page {path:name}; the panel is at /")
	Stopping = define("server.stopping", "the server is stopping")
	Busy     = define("server.busy", "the server is busy with other requests; try again in a moment")

	TooManyConnections = define("server.connections", "{open:number} connections are open, as many as there may be "+
		"at once; close pages that are not needed and try again")
	TooManyFromAddress = define("server.connections-of-address", "{open:number} connections of your address are "+
		"open, as many as it may have; close pages that are not needed and try again")
	TooManyViewers = define("server.viewers",
		"no more viewers are let in: the server is stopping, or {most:number} are there already")
	TooManyExports = define("server.exports",
		"as many exports are being written as can be at once; try again in a moment")
	TooManyImports = define("server.imports",
		"as many captures are being taken in as can be at once; try again when they are done")

	NoStation = define("station.unknown",
		"there is no station {name:name}; GET /api/stations lists those there are")
)

// What the server answers about sessions, recordings and replays.
var (
	NoLogbook    = define("logbook.none", "this server keeps no logbook")
	NoRecordings = define("recordings.none", "this server keeps no recordings; start it with recording on")
	NotInLogbook = define("logbook.not-there", "{what:phrase}; GET /api/sessions lists those there are")
	NotALeg      = define("leg.number", "{number:name} is not the number of a leg; they count from 1")
	NoSuchLeg    = define("leg.unknown",
		"the session has {legs:number} legs; there is none numbered {leg:number}")
	FilterTooLong = define("filter.too-long", "{key:name} is longer than {most:number} letters")
	BadGrade      = define("filter.grade", "grade is {grade:name}; must be unable, fair, good or excellent")
	BadFlown      = define("filter.flown", "flown is {flown:name}; must be 0 or 1")

	CaptureTooLarge = define("import.too-large",
		"the capture is larger than {most:number}; take it in with halfturn sessions import")
	CaptureNoRoom = define("import.no-room", "the capture cannot be written here ({why:name}); make room where "+
		"sessions are kept, and send it again")

	NoRecording = define("recording.none",
		"of this session there is no recording; only its grades were kept")
	BadRecording   = define("recording.unreadable", "the recording cannot be read: {why:phrase}")
	TooManyReplays = define("replay.too-many", "{most:number} sessions are being replayed already, as many as there "+
		"may be at once; stop one of them first")
	BadPace  = define("replay.pace", "pace is {pace:number}; must be between {least:number} and {most:number}")
	BadPlace = define("replay.place",
		"the place is {place:number}; it counts from 0, where the recording begins")
	NoReplay = define("replay.none", "session {session:name} is not being replayed; start it again from its page")
)
