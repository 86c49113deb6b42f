package phrase

// Why a recording cannot be read, or not all of it.
var (
	NotACapture = table.define("capture.unreadable",
		"{why:phrase}; must be a pcap or pcapng capture file, or a text log of rows below a line of "+
			"names, as it is or compressed by gzip or zstd")
	CaptureBegins = table.define("capture.begins", "the file begins with {bytes:name}")
	CaptureEmpty  = table.define("capture.empty", "the file is empty or only a few bytes long")
	CaptureGzip   = table.define("capture.gzip", "the file is gzipped but damaged")
	CaptureZstd   = table.define("capture.zstd", "the file is compressed by zstd but damaged")
	CaptureNotNG  = table.define("capture.not-ng", "the file is no pcapng file")
	CaptureHeader = table.define("capture.header", "the header of this pcap file is not understood ({why:name})")
	CaptureLink   = table.define("capture.link", "link type {link:number} is not understood: record on an Ethernet, "+
		"loopback or raw IP interface")
	CaptureCut = table.define("capture.cut",
		"the recording is cut off after {packets:number} packets; those before were read")
	CaptureDamaged = table.define("capture.damaged",
		"the recording is damaged after {packets:number} packets ({why:name}); those before were read")
	CaptureTooLong = table.define("capture.too-long",
		"the recording holds more than {most:number} uncompressed")
	CaptureTooDense = table.define("capture.too-dense",
		"the recording holds more than {most:number} in a file of {file:number} or more: "+
			"over {times:number} times as much")
	RecordingEmpty = table.define("recording.empty",
		"session {session:name} has no recording: nothing can be made of it")
	LogbookMissing = table.define("logbook.missing",
		"there is no logbook in {folder:words}: nothing was flown with this data directory yet; take recordings in "+
			"with halfturn sessions import, or choose another with --data")
	NotARecording = table.define("recording.unknown",
		"{name:name} is neither a session in {folder:name} nor a recording; name one of the folders there, a pcap or "+
			"pcapng file, or a text log")
	NotARecordingFolder = table.define("recording.bare-folder",
		"{name:name} is a folder without a recording; name a session, its folder, or one capture file")
)

// What becomes of a capture that is taken in.
var (
	NotTakenSize = table.define("import.size",
		"{why:phrase}; it is not taken in (halfturn sessions import --most-size and --most-ratio allow more)")
	NotTakenSessions = table.define("import.sessions",
		"the capture holds more than {most:number} sessions, a new one after each {silence:number} of silence; it is "+
			"not taken in (halfturn sessions import --most-sessions allows more)")
	NoDatagrams = table.define("import.no-datagrams",
		"there is no UDP datagram in it: of {packets:number} packets {other:number} are of another kind, "+
			"{fragments:number} are fragments, {cut:number} were not recorded whole "+
			"and {malformed:number} are malformed")
	LeftUnread = table.define("import.left-unread",
		"datagrams left out because nothing in them can be graded: {datagrams:number}, from {senders:number} of the "+
			"senders (halfturn sessions import --keep-all keeps them)")
	LeftSenders = table.define("import.left-senders",
		"datagrams left out of senders beyond the first {most:number}: {datagrams:number}")
	LeftStations = table.define("import.left-stations",
		"datagrams left out of senders beyond the first {most:number}: {datagrams:number} (halfturn sessions import "+
			"--most-stations allows more)")
	LeftUntimed = table.define("import.left-untimed",
		"packets left out because a wrong clock says they were received before 1970 or after 2261: {packets:number}")
	NotAllChosen = table.define("import.not-all-chosen",
		"the recording is not judged by all that was chosen while it was flown: {why:name}")
	NotAsChosen = table.define("recording.not-as-chosen",
		"the recording is not judged by what was chosen while it was flown: {why:phrase}")
	LeftBecause   = table.define("import.left-because", "{note:phrase}: {why:phrase}")
	NoKnownFormat = table.define("import.no-format", "no known format was recognized")
	FewSamples    = table.define("import.few-samples",
		"too few samples came: {samples:number} of at least {least:number}")
)

// Why nothing is recorded.
var (
	CannotWrite = table.define("record.cannot-write",
		"nothing can be written ({why:name}); recording goes on by itself once that is mended")
	CannotWriteIn = table.define("record.cannot-write-in",
		"nothing can be written in {folder:name} ({why:name}); recording goes on by itself once that is mended")
	NoRoom = table.define("record.no-room",
		"no room is left in {folder:name}; make some, and recording goes on by itself")
	MayNotWrite = table.define("record.may-not-write",
		"nothing may be written in {folder:name}; make it writable, and recording goes on by itself")
)

// What the logbook refuses.
var (
	NoSuchSession = table.define("session.unknown", "there is no session {session:name} in the logbook")
	NoneHeldYet   = table.define("session.none-yet", "{why:phrase}: it holds none yet")
	MostLike      = table.define("session.most-like", "{why:phrase}; most like it: {sessions:words}")
	NoSuchGrading = table.define("session.no-grading",
		"session {session:name} has no grading {grading:number}; they count from 1")
	SessionStays = table.define("session.stays",
		"session {session:name} was marked to be kept, or goes on; it stays")
	NoSessionYet = table.define("logbook.empty", "the logbook holds no session yet")
	Mending      = table.define("logbook.mending",
		"the logbook is being opened again, since its disk failed: wait a moment")
	SessionAway = table.define("session.away",
		"session {session:name} is kept in {store:name}, which does not answer; try again later")
	SessionTaken = table.define("session.taken",
		"session {session:name} was taken over by another node; nothing was changed here")
	SessionBusy = table.define("session.busy",
		"session {session:name} is being changed on another node again and again; try again")
	BareFolder = table.define("session.bare-folder", "its folder tells neither when it was nor what was flown")
	BadDate    = table.define("filter.date",
		"the date is {date:name}; must be year-month-day, such as 2031-05-04")
	BadAfter = table.define("filter.after", "after is {after:name}; must be next of the answer before")

	RemarkEmpty   = table.define("remark.empty", "the remark has no words")
	RemarkTooLong = table.define("remark.too-long",
		"the remark is {letters:number} letters long; must be {most:number} at most")
	RemarkLeg = table.define("remark.leg",
		"leg {leg:number} is none: legs count from 1, 0 is the session as a whole")
	RemarkMoment = table.define("remark.moment",
		"the moment {moment:number} is none: it counts in seconds from the beginning of the recording")
	RemarksFull = table.define("remark.full",
		"session {session:name} has {remarks:number} remarks, as many as are kept with one")
	RemarkNoLegs = table.define("remark.no-legs",
		"session {session:name} has no legs; a remark on the session as a whole is on leg 0")
	RemarkNoLeg = table.define("remark.no-leg",
		"session {session:name} has no leg {leg:number}; its last one is leg {last:number}")
	RemarkID   = table.define("remark.id", "notes.json holds a remark with the id {id:number}; they count from 1")
	NoMark     = table.define("remark.no-mark", "session {session:name} has no mark {mark:name}")
	MarkWorded = table.define("remark.mark-worded",
		"the mark {mark:name} has its words already; add a remark at its moment")
	RemarkTwice = table.define("remark.twice",
		"notes.json holds two remarks with the id {id:number}; give one of them another")
)

// In what a second grading differs.
var (
	Differs = table.define("differs.leg",
		"leg {leg:number}, {label:clause}: {is:phrase}, was {was:phrase}")
	IsMet         = table.define("verdict.met", "met")
	IsNear        = table.define("verdict.near", "near")
	IsMissed      = table.define("verdict.missed", "missed")
	IsNotMeasured = table.define("verdict.not-measured", "not measured")

	TheLeg      = table.define("differs.of-leg", "leg")
	TheManeuver = table.define("differs.of-maneuver", "maneuver")
	TheStandard = table.define("differs.of-standard", "standard")
	TheOutcome  = table.define("differs.of-outcome", "outcome")
	TheVerdict  = table.define("differs.of-verdict", "verdict")
	TheScore    = table.define("differs.of-score", "score")
	TheGrade    = table.define("differs.of-grade", "grade")

	IsFinished  = table.define("outcome.finished", "finished")
	IsBrokenOff = table.define("outcome.broken-off", "broken-off")
	IsKnockOff  = table.define("outcome.knock-off", "knock-off")
	IsUnable    = table.define("grade.unable", "unable")
	IsFair      = table.define("grade.fair", "fair")
	IsGood      = table.define("grade.good", "good")
	IsExcellent = table.define("grade.excellent", "excellent")

	Found     = table.define("differs.found", "found")
	NotFound  = table.define("differs.not-found", "not found")
	NotJudged = table.define("differs.not-judged", "not judged")
	NoneThere = table.define("differs.none", "none")
	JudgedAs  = table.define("differs.judged", "{verdict:clause}, {value:number}")
	JudgedIn  = table.define("differs.judged-in", "{verdict:clause}, {value:number} ({wanted:clause})")
	NoValue   = table.define("differs.no-value", "{verdict:clause}, no value")
	NoValueIn = table.define("differs.no-value-in", "{verdict:clause}, no value ({wanted:clause})")
)
