package phrase

// What people make of grades.
var (
	OverruledWhole    = table.define("judging.overruled", "overruled by {by:phrase}: {reason:phrase}")
	OverruledNameless = table.define("judging.overruled-nameless", "overruled by a person")
	JudgingNoReason   = table.define("judging.no-reason", "the reason is missing; say why the verdict is overruled")
	JudgingTooLong    = table.define("judging.too-long",
		"the reason has {letters:number} letters; must be at most {most:number}")
	JudgingVerdict = table.define("judging.verdict",
		"verdict is {verdict:name}; must be met, near, missed, not-measured or empty")
	JudgingNoCheck = table.define("judging.no-check",
		"leg {leg:number} of session {session:name} has no check {check:name}")
	JudgingNoInSeries = table.define("judging.no-series-check",
		"series {series:number} of session {session:name} has no check {check:name}")
	JudgingNoLeg    = table.define("judging.no-leg", "session {session:name} has no leg {leg:number}")
	JudgingNoSeries = table.define("judging.no-series", "session {session:name} has no series {series:number}")
	JudgingWhat     = table.define("judging.what", "nothing is named to be judged; must be a leg or a series")
	JudgingMark     = table.define("judging.mark",
		"mark is {mark:name}; must be satisfactory, unsatisfactory, not-observed or empty")
	JudgingNoElement = table.define("judging.no-element",
		"the test of series {series:number} has no element {element:name}")
	JudgingNoTest = table.define("judging.no-test",
		"no test of this maneuver is published: there is no form to fill in")
	JudgingGrade = table.define("judging.grade",
		"grade is {grade:name}; must be unable, fair, good, excellent or empty")
	JudgingThing = table.define("judging.thing",
		"the one thing is {thing:name}; must be one of those that are offered")
	JudgingFull = table.define("judging.full",
		"session {session:name} holds {acts:number} entries; no more are taken")
	StudentUnknown = table.define("student.unknown",
		"there is no student {student:name} in the logbook; halfturn students list names those there are")
	SignNameless   = table.define("sign.nameless", "the name is missing; say who signs")
	SignUnfinished = table.define("sign.unfinished",
		"session {session:name} is still being flown; sign it when it is over")
	SignNoGrades = table.define("sign.no-grades",
		"session {session:name} has no grades of its own; there is nothing to sign")
	SignTwice = table.define("sign.twice",
		"session {session:name} is signed already by {by:name}, and nothing was added since")
)
