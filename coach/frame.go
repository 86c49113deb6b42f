package coach

import "halfturn/stream/phrase"

// A Frame is the state of the flight at one moment: everything a panel shows that is not an event.
// Values of channels that the stream lacks are absent.
type Frame struct {
	Time      float64            `json:"time"`
	State     string             `json:"state"` // "set-up", "turn" (not yet a leg), "leg", "after"
	Direction string             `json:"direction"`
	Turn      float64            `json:"turn"`             // °, since the reference heading, positive in the direction
	Phase     string             `json:"phase"`            // the card's name for this span
	Values    map[string]float64 `json:"values"`           // by channel; in a turn, bank and ball positive toward it
	Climb     *float64           `json:"climb"`            // ft since the entry, in a turn
	Stall     *float64           `json:"stall"`            // kt above the stall speed at this load factor
	Deck      *float64           `json:"deck"`             // ft above the hard deck
	Point     *float64           `json:"point"`            // °, of the reference point from the nose, right positive
	PointBy   string             `json:"pointBy"`          // its source: "position", "heading", or ""
	PointFar  *float64           `json:"pointDistance"`    // NM from here to the point; null without position
	Ground    *Ground            `json:"ground"`           // null without position
	Around    *Around            `json:"around,omitempty"` // of a leg about a point on the ground
	Line      *Line              `json:"line"`             // the ground line that was chosen; null when none was
	Next      *Next              `json:"next"`             // the next checkpoint of a leg
	Cues      []NextCue          `json:"cues"`             // the cues sent that are still ahead
	Gates     []Gate             `json:"gates"`            // while level
	Ready     bool               `json:"ready"`
	Unclear   bool               `json:"unclear"` // the maneuver, so far: next, phase and cues are left out
	Awaited   *Awaited           `json:"awaited"` // null unless a leg waits for its verdict
}

// Awaited is a leg that was flown to its exit and has no verdict yet: the recovery after it is being watched. The state
// is "after", and turn, direction and climb are still those of the leg.
type Awaited struct {
	Leg   int     `json:"leg"`   // its number in the series
	Start float64 `json:"start"` // stream time of its entry, s
}

// Next is the next checkpoint.
type Next struct {
	Turn    float64       `json:"turn"`    // the card's full turn for the exit
	Label   string        `json:"label"`   // "135°", "out"
	Words   string        `json:"words"`   // what to look for: "rolling out, nose lowest"
	Want    phrase.Phrase `json:"want"`    // the numbers: "bank 45°, nose 17° down"
	Seconds *float64      `json:"seconds"` // until it comes, predicted; null when not turning
	Point   float64       `json:"point"`   // °, the bearing that the reference point should have then, right positive
}

// NextCue is a cue that was sent and whose turn angle is still ahead.
type NextCue struct {
	To      float64 `json:"to"`      // °, as in the callout
	Seconds float64 `json:"seconds"` // until it comes
}

// Ground is the flight over the ground. Along and across are measured from the entry of the leg, along its
// heading and toward the side of the turn. Before a leg they are 0, as if the entry were here.
type Ground struct {
	Along  float64  `json:"along"`  // ft
	Across float64  `json:"across"` // ft
	Track  *float64 `json:"track"`  // °, by the same compass as the heading; null when hardly moving
	Drift  *float64 `json:"drift"`  // °, track less heading, right positive; null likewise
	Wind   *Wind    `json:"wind"`   // null when it is not known
}

// Wind is the wind as estimated from the flight.
type Wind struct {
	From  float64 `json:"from"`  // °, by the same compass as the heading
	Speed float64 `json:"speed"` // kt
}

// Line is the ground line and reference point as chosen, and how far the nose is off the line.
type Line struct {
	Heading  float64  `json:"heading"`
	Side     string   `json:"side"`     // of the reference point: "right", "left", or "" for that of the turn
	Distance *float64 `json:"distance"` // NM to the reference point as chosen; null for the usual one
	Off      float64  `json:"off"`      // °, of the nose from the nearer direction of the line, right positive
}

// A LineChoice sets or clears the ground line: the body of POST /api/stations/{name}/line.
type LineChoice struct {
	Heading  *float64 `json:"heading"`         // °; null is the heading of now
	Side     string   `json:"side"`            // of the reference point: "right", "left", or "" for that of the turn
	Distance *float64 `json:"distance"`        // NM to the reference point; null is the usual one
	Clear    bool     `json:"clear,omitempty"` // no line from here on
}

// The points on the ground that are chosen without a look at the page.
const (
	AboutHere = "here" // below the airplane
	AboutWing = "wing" // off the wing that is down; off the one on the side of the turn while neither is
)

// An AboutChoice chooses a point on the ground to fly about, or clears what was chosen: the body of
// POST /api/stations/{name}/about. The last two stand.
type AboutChoice struct {
	Where    string   `json:"where"`           // AboutHere, AboutWing, or off a wing: "left" or "right"
	Distance *float64 `json:"distance"`        // ft off a wing that is level; null is the usual one
	Clear    bool     `json:"clear,omitempty"` // none from here on
}

// Around is how a leg stands to the point on the ground that it is flown about, now.
type Around struct {
	What     string   `json:"what"`             // "center" or "pylon"
	Chosen   bool     `json:"chosen,omitempty"` // by a person; else it is where the flight so far has it
	Bearing  *float64 `json:"bearing"`          // ° from the nose, right positive; null before it is known
	Distance *float64 `json:"distance"`         // ft; null likewise
	Radius   *float64 `json:"radius"`           // ft: the mean distance so far; of a center
	Off      *float64 `json:"off"`              // %: how far the distance is off that; of a center
	Hold     *Hold    `json:"hold"`             // what holds the radius; null where the wind is not known
	Ahead    *float64 `json:"ahead"`            // ° ahead of the line of the wing; of a pylon
	Pivotal  *float64 `json:"pivotal"`          // ft above the ground, at the ground speed of now; of a pylon
	Above    *float64 `json:"above"`            // ft above that; of a pylon
	Within   *float64 `json:"within,omitempty"` // ft: how far off the point may be; null where it was chosen
}

// Hold is the bank that holds the radius, as the reference path and the wind have it.
type Hold struct {
	Now   float64      `json:"now"`   // °
	Ahead [][2]float64 `json:"ahead"` // turn angle and bank, °, over the circle to come
}
