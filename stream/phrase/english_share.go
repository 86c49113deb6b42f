package phrase

// What is said of sharing a station with another Halfturn.
var (
	ShareKeyMissing = table.define("share.key-missing",
		"a link needs the key of a station, which halfturn stations add makes")
	ShareKeyRefused = table.define("share.key-refused",
		"the key of the station is not known here, or was revoked; ask the school for a new one")
	ShareKeyElsewhere = table.define("share.key-elsewhere",
		"the key of {station:name} is used from another place now; give each simulator a key of its own")
	ShareNameTaken = table.define("share.name-taken",
		"a simulator flies as {station:name} at the school; give it another name there, or stop it")
	ShareVersion = table.define("share.version", "the link is of version {version:number}; must be {needed:number}: "+
		"use the same version of Halfturn at both ends")
	ShareMalformed = table.define("share.malformed", "what was sent is not understood: {why:name}")
	ShareTooLong   = table.define("share.too-long",
		"the session is longer than {most:number}, and is not taken any further")
	ShareNoLink = table.define("share.no-link",
		"there is no link to {station:name} now; ask again when it is back")
	ShareLeft = table.define("share.left", "The home did not return, and the session was ended without it; "+
		"{missing:number} that were seen are missing at the end. They are taken when it returns.")
	ShareLeftRevoked = table.define("share.left-revoked", "The key of the station was revoked, and the session was "+
		"ended without its home; {missing:number} that were seen are missing at the end.")
	ShareNothingFlown = table.define("share.nothing-flown", "nothing was flown at the station at home yet")
)
