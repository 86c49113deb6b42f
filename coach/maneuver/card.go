// Package maneuver holds the cards: what a maneuver is, by which standard it is judged, and the library of all cards
// that can be chosen. Cards are data (TOML); an error about a wrong card names file, line and key, and says what is
// wrong and what must be.
package maneuver

import (
	"slices"

	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// ExitLead is how much turn is left, in °, when the words of the exit's cue end: the last of the roll-out is still to
// be flown to the heading they name, and the moment at which the wings come level cannot be predicted. It is half of
// the 25° of bank that are left there: the handbooks lead a roll-out by half the bank.
const ExitLead = 12

// A Card is a maneuver and its standard.
type Card struct {
	Name        string       `toml:"name"`       // as given on the command line: "wing-over"
	Title       string       `toml:"title"`      // as read by people
	Summary     string       `toml:"summary"`    // one sentence
	Standard    string       `toml:"standard"`   // "course", "check"
	Source      string       `toml:"source"`     // of the maneuver as a whole
	Variant     string       `toml:"variant-of"` // card it only differs from in its numbers; auto does not choose it
	Block       string       `toml:"block-of"`   // card it is a building block of; auto does not choose it
	Turn        float64      `toml:"turn"`       // ° of a whole leg
	Limit       float64      `toml:"limit"`      // s, the longest a leg may take
	Meant       Meant        `toml:"meant"`      // what may be flown, where that is not one turn only
	Commit      Commit       `toml:"commit"`
	Setup       Setup        `toml:"set-up"`
	Recovery    Recovery     `toml:"recovery"` // none when left out
	Series      Series       `toml:"series"`
	Deck        Deck         `toml:"hard-deck"`
	Limits      Limits       `toml:"limits"`
	Ground      Ground       `toml:"ground"`
	Phases      []Phase      `toml:"phase"`
	Checkpoints []Checkpoint `toml:"checkpoint"`
	Cues        []Cue        `toml:"cue"`
	Profile     []Knot       `toml:"profile"`
	Reference   Reference    `toml:"reference-path"`
	Corridor    Corridor     `toml:"corridor"`
	Watches     []Watch      `toml:"watch"`
	Checks      []check.Spec `toml:"check"`
	Errors      []string     `toml:"errors"` // common ones, for the brief

	// Prompts is how much the standard has said in flight: one of those of package callout; "" is PromptsFade.
	Prompts string `toml:"-"`

	// Task is the published test of the maneuver by the standard that judges it; nil where the standard has none.
	Task *Task `toml:"-"`

	// AllCues are the cues of checkpoints and the others in the order of the turn; that of the exit is ExitLead early.
	AllCues []Cue `toml:"-"`
}

// Meant says what a leg may be meant to be where the maneuver leaves a choice: turns of several lengths, at several
// banks. Which one was meant is seen by the leg once it is over. The zero value leaves no choice.
type Meant struct {
	From   float64   `toml:"exit-from"` // ° of turn from which level wings end a leg; 0 is the usual
	Turns  []float64 `toml:"turns"`     // ° at which it may be meant to end, rising; the nearest counts
	Banks  []float64 `toml:"banks"`     // ° at which it may be meant to be flown, rising; the nearest counts
	Order  []Step    `toml:"order"`     // in which the legs of a series follow each other
	Source string    `toml:"source"`
}

// A Step is one leg of a series in which each has its own bank and turn, both in °.
type Step struct {
	Bank float64 `toml:"bank"`
	Turn float64 `toml:"turn"`
}

// ExitMargin is how much of the turn may be left where level wings end a leg, ° (common practice, no source).
const ExitMargin = 30.0

// ExitFrom returns the turn angle from which level wings end a leg, °.
func (c *Card) ExitFrom() float64 {
	if c.Meant.From > 0 {
		return c.Meant.From
	}
	return c.Turn - ExitMargin
}

// Longest returns how far a leg may be meant to turn, °.
func (c *Card) Longest() float64 {
	if n := len(c.Meant.Turns); n > 0 {
		return max(c.Turn, c.Meant.Turns[n-1])
	}
	return c.Turn
}

// Several reports whether the maneuver is several turns of different banks and lengths. One of them alone is an
// ordinary turn.
func (c *Card) Several() bool { return len(c.Meant.Banks) > 1 }

// How airspeed is held where no slowest one is aimed at.
const (
	Level = "level" // with the height
	Glide = "glide" // in a descent without power
	// Pivotal leaves the power alone, and trades airspeed for the height at which a pylon stays on the wing.
	Pivotal = "pivotal"
)

// Ground is what a turn is flown by on the ground.
type Ground struct {
	About  string `toml:"about"` // Center or Pylon; "" is nothing
	Source string `toml:"source"`
}

// What a turn is flown about.
const (
	Center = "center" // a point that it goes round at one distance
	Pylon  = "pylon"  // a point that is kept on the wing
)

// Commit says when a turn counts as a leg: the nose above its level attitude after a little turn, or a bank; in a
// descent, or near the height from which a pylon stays on the wing, where that is asked for as well.
type Commit struct {
	Nose   float64 `toml:"nose"`   // ° above level pitch
	Turned float64 `toml:"turned"` // ° turned by then
	Bank   float64 `toml:"bank"`   // ° of bank instead; 0 is not used
	Sinks  float64 `toml:"sinks"`  // ft/min of descent besides; 0 is not asked
	// Pivotal is how many times the pivotal altitude the height above the ground may be at most; 0 is not asked.
	Pivotal float64 `toml:"pivotal"`
	Source  string  `toml:"source"`
}

// Setup says what the gates ask for before a leg. They are judged and spoken, never required.
type Setup struct {
	Bank          float64 `toml:"bank"`           // ° either way
	TurnRate      float64 `toml:"turn-rate"`      // °/s either way
	VerticalSpeed float64 `toml:"vertical-speed"` // ft/min either way
	Spread        float64 `toml:"spread"`         // kt between slowest and fastest
	Airspeed      float64 `toml:"airspeed"`       // kt either side of the aircraft's entry speed
	Ball          float64 `toml:"ball"`           // ball's widths either way
	Source        string  `toml:"source"`
}

// Recovery is the flight after the exit that still belongs to a leg. A turn the pilot begins in it ends it.
type Recovery struct {
	Time   float64 `toml:"time"` // s
	Source string  `toml:"source"`
}

// Series says which legs belong together.
type Series struct {
	Legs     int     `toml:"legs"`
	Most     int     `toml:"most"`     // legs that are flown on and still belong to it; 0 is no more
	Opposite bool    `toml:"opposite"` // each the other way than the one before
	Gap      float64 `toml:"gap"`      // s, the longest pause between legs
	Source   string  `toml:"source"`
}

// Deck is the lowest height above the ground at which any part of the maneuver is flown.
type Deck struct {
	Height float64 `toml:"height"` // ft above the ground
	Source string  `toml:"source"`
}

// Limits are what the maneuver must never pass, whatever the aircraft can. Past one, cues stop and the way back is
// said, and the checks of the bank lower the grade; but the leg goes on. The aircraft is not in danger there, and how
// the pilot comes back is worth seeing in the debrief. What ends a leg is a limit of the aircraft's card, which is one
// of the airframe: never-exceed speed, load, bank-max.
type Limits struct {
	Bank   float64 `toml:"bank"` // ° either way; 0 is none
	Source string  `toml:"source"`
}

// A Phase is a named span of the turn.
type Phase struct {
	Name string  `toml:"name"`
	From float64 `toml:"from"`
	To   float64 `toml:"to"`
}

// A Checkpoint is a turn angle at which something must hold.
type Checkpoint struct {
	Turn  float64 `toml:"turn"`
	Words string  `toml:"words"` // what to see, for the page
	Cue   string  `toml:"cue"`   // what is said before it, five words at most
	// Asks are what the cue asks of the pilot.
	Asks  []callout.Ask `toml:"asks"`
	Point float64       `toml:"point"` // ° from the nose toward the turn where the reference point stands
}

// A Cue is something said before a turn angle.
type Cue struct {
	Turn float64 `toml:"turn"`
	Say  string  `toml:"say"`
	// Asks are what the words ask of the pilot.
	Asks []callout.Ask `toml:"asks"`
	// Of is the turn angle the words are about: the full turn for the exit, whose words end ExitLead before it.
	Of float64 `toml:"-"`
}

// A Knot is the aim at one turn angle: bank in degrees toward the turn, nose as a share of the
// highest nose above level pitch.
type Knot struct {
	Turn float64 `toml:"turn"`
	Bank float64 `toml:"bank"`
	Nose float64 `toml:"nose"`
}

// Reference defines the reference path: its highest nose follows from the lowest airspeed, or is what the aircraft card
// states; how low the nose goes afterwards, and the power set before the entry, from regaining height and airspeed.
type Reference struct {
	Slowest  string  `toml:"slowest"` // apex, stall, entry; or how airspeed is held: Level or Glide
	Plus     float64 `toml:"plus"`    // kt above it
	Regains  bool    `toml:"regains-height"`
	Own      bool    `toml:"own-speed"`      // any airspeed will do at the entry, and that is held
	Power    float64 `toml:"power"`          // thrust at entry over that of level flight there; 0 is as much
	Increase bool    `toml:"power-increase"` // to the aircraft card's climb-power, in step with the nose
	Source   string  `toml:"source"`
}

// Corridor is how far from the aim the flight may be, in pictures and before something is said of it on the way.
type Corridor struct {
	Bank     float64 `toml:"bank"`     // °
	Nose     float64 `toml:"nose"`     // °
	Airspeed float64 `toml:"airspeed"` // kt
	Height   float64 `toml:"height"`   // ft
	Source   string  `toml:"source"`
}

// A Watch is a correction said while flying, when a quantity has been outside the corridor for some time.
type Watch struct {
	ID      string  `toml:"id"`
	Channel string  `toml:"channel"` // bank, pitch, airspeed, height: against the aim; ball, power: as at the entry
	Width   float64 `toml:"width"`   // how far off it may be; 0 is the corridor's, which ball and power have none of
	From    float64 `toml:"from"`
	To      float64 `toml:"to"`
	Hold    float64 `toml:"hold"` // s outside before it is said
	High    string  `toml:"high"` // what is said above the corridor
	Low     string  `toml:"low"`
	// HighAsks and LowAsks are what High and Low ask of the pilot.
	HighAsks callout.Ask `toml:"high-asks"`
	LowAsks  callout.Ask `toml:"low-asks"`
}

// Has reports whether the card has a check of an id.
func (c *Card) Has(id string) bool {
	return slices.ContainsFunc(c.Checks, func(k check.Spec) bool { return k.ID == id })
}

// UnitOf names the unit of a check of the card; that of a check which compares another is that of the other.
func (c *Card) UnitOf(k *check.Spec) string {
	for i := range c.Checks {
		if k.Of != "" && c.Checks[i].ID == k.Of {
			return kinds.Unit(&c.Checks[i])
		}
	}
	return kinds.Unit(k)
}

// MostLegs returns how many legs a series may have.
func (c *Card) MostLegs() int { return max(c.Series.Legs, c.Series.Most) }

// Turns returns the turn angles of the entry, which is 0, and of the checkpoints, in °; the last is the exit.
func (c *Card) Turns() []float64 {
	turns := make([]float64, len(c.Checkpoints)+1)
	for i := range c.Checkpoints {
		turns[i+1] = c.Checkpoints[i].Turn
	}
	return turns
}
