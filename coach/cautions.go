package coach

// Cautions stand on every page, on every report and at start-up.
var Cautions = [...]string{
	"For simulator practice only. Never for use in an aircraft, and not for navigation.",
	"It gives no credit toward a license.",
	"The aircraft's handbook, local rules and a licensed instructor come first.",
}
