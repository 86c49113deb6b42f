package phrase

// What the server answers when it cannot do what was asked.
var (
	InternalError = table.define("server.internal", "something went wrong here; the server's log says what")
	ForeignPage   = table.define("server.foreign-page",
		"the request came from another site's page; use Halfturn's own")
	BodyTooLong = table.define("server.body-too-long", "what was sent is longer than {bytes:number} bytes")
	BodyStopped = table.define("server.body-stopped",
		"nothing more arrived of what is being sent for {wait:number}; send it again")
	UnknownHost = table.define("server.unknown-host",
		"this server is not known by the name {host:name}: open it by its address, or add the name to its hosts")
	LoginMissing = table.define("server.login-missing", "log in first, at /login")
	PeopleAway   = table.define("server.people-away",
		"the database does not answer, so it is not known who is logged in; coaching goes on, try again in a while")
	NotAllowed = table.define("server.not-allowed",
		"you may not do that here; ask an instructor, or the owner of this Halfturn")
	StudentElsewhere = table.define("server.student-elsewhere",
		"this student has flown at no station of yours; ask an instructor who has all stations, or the owner")
	NoPage   = table.define("server.no-page", "there is no page {path:name}; the panel is at /")
	Stopping = table.define("server.stopping", "the server is stopping")
	Busy     = table.define("server.busy", "the server is busy with other requests; try again in a moment")

	FaultBefore = table.define("trouble.fault",
		"A fault in Halfturn ended the last session. What was flown is kept, and a new one begins with the next data. "+
			"Please report it: the log says what failed.")

	TooManyConnections = table.define("server.connections",
		"{open:number} connections are open, as many as there may be "+
			"at once; close pages that are not needed and try again")
	TooManyFromAddress = table.define("server.connections-of-address", "{open:number} connections of your address are "+
		"open, as many as it may have; close pages that are not needed and try again")
	TooManyViewers = table.define("server.viewers",
		"no more viewers are let in: the server is stopping, or {most:number} are there already")
	TooManyExports = table.define("server.exports",
		"as many exports are being written as can be at once; try again in a moment")
	TooManyImports = table.define("server.imports",
		"as many captures are being taken in as can be at once; try again when they are done")

	NoStation = table.define("station.unknown",
		"there is no station {name:name}; GET /api/stations lists those there are")
	WhichStation = table.define("station.which",
		"{live:number} stations are live, and none was named; name one, as in /do/mark?station=NAME")
	NoAct = table.define("act.unknown",
		"there is no act {act:name}; there are end, mark, mute, next, point, repeat, step, stop and student")
	NobodyNamed = table.define("act.nobody", "nobody has been named yet; name who flies on the panel")
	NobodyFlies = table.define("act.nobody-here", "nobody is named at this station; name who flies on the panel")
	NothingNext = table.define("act.nothing-next", "nothing is left to fly in this course; choose another one")
)

// What the server answers about being opened to the local network.
var (
	NoNetwork = table.define("network.none",
		"this machine has no address in a private network; connect it to one and try again")
	NetworkFixed = table.define("network.fixed",
		"the pages are open to the network by the configuration; change its key http to change that")
	OwnMachineOnly = table.define("network.own-machine-only",
		"only a page on the machine that Halfturn runs on can do that")
	NoSuchAddress = table.define("network.address", "{address:name} is no address of the pages in the network")
	CodeMissing   = table.define("network.code-missing",
		"type the code that is shown at the simulator first, at /enter")
	CodeWrong = table.define("network.code-wrong",
		"that is not the code; it has six digits and is shown at the simulator, on the page Set-up")
	CodeTooOften = table.define("network.code-too-often",
		"the code was wrong too often, so the network is closed; open it again at the simulator, on the page Set-up")
	TooManyDevices = table.define("network.devices",
		"{most:number} devices are there already; close the network and open it again")
)

// What the server answers about who may come in.
var (
	LoginWrong    = table.define("login.wrong", "name or password is wrong; try again, or ask for a new password")
	LoginTooOften = table.define("login.too-often", "that was wrong too often; try again in {wait:number}")
	LinkWrong     = table.define("login.link",
		"this link is not known, or has ended; ask for another one")
	PasswordNone   = table.define("login.no-password", "only somebody who is logged in by name has a password")
	PasswordLength = table.define("login.password-length",
		"a password has between {least:number} and {most:number} letters")
	OwnerFirst = table.define("login.owner-first",
		"the first user must be an owner, so that somebody can manage the others")
	OwnerLast        = table.define("login.owner-last", "there is no other owner; add one, or remove all others first")
	UserNameEmpty    = table.define("login.name-empty", "the name is empty; give one")
	ViewerByLink     = table.define("login.viewer", "a viewer has no password; make a link for one station")
	StudentPlaceless = table.define("login.student", "a student needs a station, or a group of stations")
	RoleUnknown      = table.define("login.role",
		"the role is {role:name}; must be owner, instructor, student or viewer")
	LinkLasts = table.define("login.link-lasts", "a link lasts between 1 minute and 30 days")
)

// What the server answers about sessions, recordings and replays.
var (
	NoLogbook    = table.define("logbook.none", "this server keeps no logbook")
	NoRecordings = table.define("recordings.none", "this server keeps no recordings; start it with recording on")
	NotInLogbook = table.define("logbook.not-there", "{what:phrase}; GET /api/sessions lists those there are")
	NotALeg      = table.define("leg.number", "{number:name} is not the number of a leg; they count from 1")
	NoSuchLeg    = table.define("leg.unknown",
		"the session has {legs:number} legs; there is none numbered {leg:number}")
	FilterTooLong = table.define("filter.too-long", "{key:name} is longer than {most:number} letters")
	BadGrade      = table.define("filter.grade", "grade is {grade:name}; must be unable, fair, good or excellent")
	BadFlown      = table.define("filter.flown", "flown is {flown:name}; must be 0 or 1")

	CaptureTooLarge = table.define("import.too-large",
		"the capture is larger than {most:number}; take it in with halfturn sessions import")
	CaptureNoRoom = table.define("import.no-room", "the capture cannot be written here ({why:name}); make room where "+
		"sessions are kept, and send it again")

	NoRecording = table.define("recording.none",
		"of this session there is no recording; only its grades were kept")
	BadRecording   = table.define("recording.unreadable", "the recording cannot be read: {why:phrase}")
	TooManyReplays = table.define("replay.too-many",
		"{most:number} sessions are being replayed already, as many as there "+
			"may be at once; stop one of them first")
	BadPace  = table.define("replay.pace", "pace is {pace:number}; must be between {least:number} and {most:number}")
	BadPlace = table.define("replay.place",
		"the place is {place:number}; it counts from 0, where the recording begins")
	NoReplay = table.define("replay.none", "session {session:name} is not being replayed; start it again from its page")
)

// What the server lacks while more arrives than the machine can do.
var (
	ClusterAway = table.define("cluster.away",
		"NATS has kept nothing for {n:number} s: coaching and recording go on, and {mb:number} MB wait to be kept.")
	SpoolAway = table.define("spool.away",
		"{store:name} does not answer: {bytes:number} of recordings wait on this server's disk, for {time:number} "+
			"now; recording and coaching go on, and nothing is lost")
	SpoolDenied = table.define("spool.denied",
		"{store:name} refuses this server, and its log says why: {bytes:number} of recordings wait on its disk, for "+
			"{time:number} now; recording and coaching go on, and nothing is lost")
	LogbookAway = table.define("logbook.away",
		"The database of the logbook has not answered for {time:number}. Coaching and recording go on, and nothing is "+
			"lost; sessions that wait to be entered: {n:number}.")
	OverloadViewers = table.define("overload.viewers",
		"This machine is overloaded: pages get at most {rate:number} pictures a second until it keeps up.")
	OverloadRecording = table.define("overload.recording",
		"Recordings lack {n:number} datagrams: the disk is full or too slow.")
	OverloadCoaching = table.define("overload.coaching",
		"This machine lost {n:number} datagrams before it could work on them: they came too fast. Grades may suffer.")
)
