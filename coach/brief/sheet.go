package brief

import (
	"cmp"
	"math"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// A Sheet is the sheet for one maneuver in one aircraft, read before it is flown.
type Sheet struct {
	Version  int             `json:"version"`
	Maneuver Title           `json:"maneuver"`
	Standard Title           `json:"standard"`
	Aircraft *Title          `json:"aircraft"` // null when none is chosen
	Plan     *message.Chart  `json:"plan"`     // checkpoints with words and wants, lanes with corridors
	Numbers  []Number        `json:"numbers"`
	Path     []Point         `json:"path"`    // every whole degree; null when there is none
	Problem  phrase.Phrase   `json:"problem"` // why there is no path; "" when there is one
	Notes    []phrase.Phrase `json:"notes"`   // what else is to be known
	Gates    []coach.Gate    `json:"gates"`   // what the set-up wants
	Errors   []Mistake       `json:"errors"`  // to expect, those first that can cost most
	Usual    []string        `json:"usual"`   // the card's own list of errors
	Said     []Cue           `json:"said"`
	Cautions []string        `json:"cautions"`
	Sources  []string        `json:"sources"`
}

// At returns the path at a turn angle, to the nearest whole degree; the zero point when there is none.
func (b *Sheet) At(turn float64) Point {
	var best Point
	for i := range b.Path {
		if i == 0 || math.Abs(b.Path[i].Turn-turn) < math.Abs(best.Turn-turn) {
			best = b.Path[i]
		}
	}
	return best
}

// A Title is a card as it is named on a page.
type Title struct {
	Name    string `json:"name"`
	Title   string `json:"title"`
	Summary string `json:"summary,omitempty"`
}

// A Number is one number of a brief.
type Number struct {
	ID     string        `json:"id"`
	Label  phrase.Phrase `json:"label"`
	Value  *float64      `json:"value"` // null when the cards don't give it, and where they give words
	Unit   string        `json:"unit"`
	Digits int           `json:"digits"` // after the decimal point, as read
	Where  phrase.Phrase `json:"where"`  // in the turn; "" where it is the same all the way
	Words  string        `json:"words"`  // of the aircraft card, in the place of a number
	Met    [2]*float64   `json:"met"`    // the band within which it is met; null is an open end
}

// In returns the number as read in a language: "1,500 ft", "130 kt (120 to 140 kt)", "12 kt, at 86° of turn (at least
// 5 kt)".
func (n *Number) In(in *phrase.Language) string {
	if n.Value == nil {
		return cmp.Or(in.Text(n.Words), in.Word("not given"))
	}
	s := in.Number(*n.Value, n.Digits)
	if n.Unit == "ft" && in == nil { // altitudes have their thousands set apart, as on charts
		for i := len(s) - 3; i > 0; i -= 3 {
			s = s[:i] + "," + s[i:]
		}
	}
	s += wording.UnitIn(in, n.Unit)
	if !n.Where.IsZero() {
		s += ", " + in.Say(n.Where)
	}
	if n.Met[0] != nil || n.Met[1] != nil {
		s += " (" + in.Say(wording.Band(&coach.Check{Met: n.Met, Unit: n.Unit})) + ")"
	}
	return s
}

// String returns the number as read in English.
func (n *Number) String() string { return n.In(nil) }

// A Point is the reference path at a turn angle, flown without wind.
type Point struct {
	Turn     float64  `json:"turn"`
	Time     float64  `json:"time"`     // s
	Along    float64  `json:"along"`    // ft from the entry, along its heading
	Across   float64  `json:"across"`   // ft, toward the side of the turn
	Height   float64  `json:"height"`   // ft above the entry
	Airspeed float64  `json:"airspeed"` // kt
	Bank     float64  `json:"bank"`     // °
	Pitch    float64  `json:"pitch"`    // ° above the pitch of level flight
	Load     float64  `json:"load"`     // g
	Energy   float64  `json:"energy"`   // ft, of height and true airspeed together, since the entry
	Stall    *float64 `json:"stall"`    // kt above the stall at this load factor; null when not known
}

// A Mistake is an error to expect.
type Mistake struct {
	ID     string        `json:"id"`
	Title  phrase.Phrase `json:"title"`  // in the words said of it
	Seen   string        `json:"seen"`   // what it looks like
	Advice phrase.Phrase `json:"advice"` // what to do
}

// A Cue is what is said before a turn angle.
type Cue struct {
	Turn  float64       `json:"turn"`
	Label string        `json:"label"`
	Words phrase.Phrase `json:"words"`
}
