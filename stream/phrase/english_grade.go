package phrase

// What a verdict rests on.
var (
	WithinLimits = table.define("head.count", "{met:number} of {of:number} within limits")
	AllWithin    = table.define("head.all", "All {of:number} checks within limits")
	WithinNearly = table.define("head.within", "Within standard: {within:phrase}; nearly: {what:phrase}")
	Nearly       = table.define("head.nearly", "Nearly: {what:phrase}; {within:phrase}")
	NotYet       = table.define("head.not-yet", "Not yet: {what:phrase}; {within:phrase}")
	NotYetMore   = table.define("head.not-yet-more",
		"Not yet: {what:phrase} and {more:number} more; {within:phrase}")
	PastLimit       = table.define("head.past-limit", "Past the limit: {what:phrase}; {within:phrase}")
	StoppedBy       = table.define("head.stopped", "Stopped for safety: {why:phrase}")
	NotComplete     = table.define("head.not-complete", "Not complete: {what:phrase}")
	NothingMeasured = table.define("head.nothing", "Nothing could be measured")
	NotMeasuredWhy  = table.define("head.not-measured", "Not measured: {why:phrase}")
	WithUnmeasured  = table.define("head.unmeasured",
		"{headline:phrase}; {none:number} of {all:number} checks not measured")
	CorrectedOnce = table.define("head.corrected-once", "{headline:phrase}; one correction on the way")
	Corrected     = table.define("head.corrected", "{headline:phrase}; {times:number} corrections on the way")

	BothWithin = table.define("head.both-legs", "Both legs within standard")
	LegsWithin = table.define("head.legs", "All {legs:number} legs within standard")
	OfLeg      = table.define("head.of-leg", "Leg {leg:number}: {headline:phrase}")

	AnotherFlown = table.define("head.another", "Another maneuver was flown: {maneuver:phrase}")

	AgainTheSame = table.define("change.none", "Again, the same")
)
